package org.lonefibre.formats.reader;

import org.lonefibre.signal.recording.Channel;

/** The checks every reader makes of samples. Thread rule: safe, keeps nothing. */
public final class SampleRange {

  /** No voltage in any unit is larger, and its square is still a number; engineering choice. */
  public static final double LARGEST = 1e30;

  private SampleRange() {}

  /** Whether a number can be a sample: finite, and not beyond {@link #LARGEST}. */
  public static boolean holds(double value) {
    return Math.abs(value) <= LARGEST;
  }

  /**
   * Refuses a range that lies outside the channel or the array.
   *
   * @param channel the channel as the recording knows it
   * @param available length of the array that receives the samples
   * @throws IllegalArgumentException if a sample would be read or written outside
   */
  public static void check(
      Channel channel, long firstSample, int offset, int length, int available) {
    long samples = channel.sampleCount();
    if (firstSample < 0 || length < 0 || firstSample > samples - length) {
      throw new IllegalArgumentException(
          length
              + " samples from "
              + firstSample
              + " on lie outside channel "
              + channel.number()
              + ", which has samples 0 to "
              + (samples - 1));
    }
    if (offset < 0 || offset > available - length) {
      throw new IllegalArgumentException(
          length
              + " samples from place "
              + offset
              + " on do not fit an array of "
              + available
              + " numbers");
    }
  }
}
