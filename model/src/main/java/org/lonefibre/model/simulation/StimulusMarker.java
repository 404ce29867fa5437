package org.lonefibre.model.simulation;

/** How the recording says when the stimuli were. */
public enum StimulusMarker {
  /** Not at all; the artefact must serve. */
  NONE,
  /** A second channel, high for 0.2 ms from the first sample at or after the stimulus. */
  CHANNEL,
  /** Annotations with the text {@code stimulus}, exact in time. */
  ANNOTATION
}
