package org.lonefibre.analysis.sweep;

import java.util.List;
import org.lonefibre.signal.recording.Finding;

/**
 * The stimuli of a site.
 *
 * <ul>
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class StimulusTrain {

  /** From what the stimuli are known. */
  public enum Source {
    /** A channel with a marker. */
    MARKER,
    /** Annotations, placed on the artefact where there is one. */
    ANNOTATIONS,
    /** The artefact in the recording itself. */
    ARTEFACT
  }

  private final Source source;
  private final double[] position;
  private final double errorSamples;
  private final List<Finding> findings;

  StimulusTrain(Source source, double[] position, double errorSamples, List<Finding> findings) {
    this.source = source;
    this.position = position;
    this.errorSamples = errorSamples;
    this.findings = List.copyOf(findings);
  }

  /** From what the stimuli are known. */
  public Source source() {
    return source;
  }

  /** Number of stimuli. */
  public int count() {
    return position.length;
  }

  /** Time of a stimulus, in samples of the recorded channel; between samples where it is known. */
  public double positionSamples(int stimulus) {
    return position[stimulus];
  }

  /** Standard error of one time, in samples. */
  public double errorSamples() {
    return errorSamples;
  }

  /** What to know about the stimuli. */
  public List<Finding> findings() {
    return findings;
  }

  /** The same without the first stimuli. */
  public StimulusTrain without(int first, Finding why) {
    List<Finding> more = new java.util.ArrayList<>(findings);
    more.add(why);
    return new StimulusTrain(
        source,
        java.util.Arrays.copyOfRange(position, Math.min(first, position.length), position.length),
        errorSamples,
        more);
  }
}
