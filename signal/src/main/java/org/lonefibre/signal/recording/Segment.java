package org.lonefibre.signal.recording;

/**
 * A continuous stretch of a channel: no interval is ever measured across its ends.
 *
 * @param firstSample index of its first sample within the channel as stored, from 0
 * @param sampleCount number of samples, at least 1
 * @param startS time of its first sample since the start of the recording, in seconds
 */
public record Segment(long firstSample, long sampleCount, double startS) {

  /** Refuses empty and negative stretches. */
  public Segment {
    if (firstSample < 0 || sampleCount < 1) {
      throw new IllegalArgumentException(
          "a segment needs firstSample >= 0 and sampleCount >= 1, found "
              + firstSample
              + " and "
              + sampleCount);
    }
  }

  /** Index after its last sample. */
  public long endSample() {
    return firstSample + sampleCount;
  }
}
