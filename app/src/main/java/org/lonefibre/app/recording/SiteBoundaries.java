package org.lonefibre.app.recording;

/** By what a recording is divided into sites. */
public enum SiteBoundaries {
  /** By annotations {@code site NAME}. */
  ANNOTATIONS,
  /** By pauses and movements of the needle, found in the signal. */
  SIGNAL
}
