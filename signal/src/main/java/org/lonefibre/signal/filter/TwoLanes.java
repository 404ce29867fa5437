package org.lonefibre.signal.filter;

import org.jspecify.annotations.Nullable;

/**
 * Two places of a signal on their way at once through a high-pass section and a low-pass section of
 * Butterworth's: neither waits for the other, so both take little more time than one.
 *
 * <p>The zeros of the two sections lie at 0 Hz and at half the rate. Together they are differences
 * of samples two apart, now and one or two samples before; then come the poles of either. All that
 * must be known of the past are four samples in and four out, so a lane goes on from what stands in
 * the arrays.
 *
 * <ul>
 *   <li>Samples out that have faded below 1e-150 are taken for nothing every 2,048 samples, so that
 *       a constant signal costs no more than any other.
 *   <li>Two samples are made a turn of the loop, and indices differ by what the loop does not
 *       change: the virtual machine then keeps the state in registers.
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
final class TwoLanes {

  /** Samples that must stand before those filtered, in and out. */
  static final int PAST = 4;

  private static final int CHUNK = 2048;
  private static final double FADED = 1e-150;

  private final double gain;
  private final double otherGain;
  private final int lag;
  private final double a1;
  private final double a2;
  private final double c1;
  private final double c2;

  private TwoLanes(double[] one, double[] two) {
    gain = one[0] * two[0];
    lag = one[2] == 0 ? 1 : 2;
    otherGain = lag == 1 ? gain : -gain;
    a1 = one[3];
    a2 = one[4];
    c1 = two[3];
    c2 = two[4];
  }

  /** The lanes of a filter; null if it is not a high-pass section and a low-pass one of 2 zeros. */
  static @Nullable TwoLanes of(SecondOrderSections filter) {
    if (filter.sectionCount() != 2) {
      return null;
    }
    double[] one = filter.section(0);
    double[] two = filter.section(1);
    boolean rises = one[2] == 0 ? one[1] == -one[0] : one[1] == -2 * one[0] && one[2] == one[0];
    boolean falls = two[1] == 2 * two[0] && two[2] == two[0];
    return rises && falls ? new TwoLanes(one, two) : null;
  }

  /**
   * Filters samples at two places, in the order of time.
   *
   * @param at index of the first sample of one place, in either array
   * @param other index of the first sample of the other
   * @param length samples at each place, an even number
   */
  void forward(double[] from, double[] to, int at, int other, int length) {
    for (int k = 0; k < length; k += CHUNK) {
      chunkForward(from, to, at + k, other + k, Math.min(CHUNK, length - k));
    }
  }

  /**
   * Filters samples at two places, the last first.
   *
   * @param at index in {@code from} of the last sample of one place
   * @param other index in {@code from} of the last sample of the other
   * @param shift how much lower the indices in {@code to} are
   * @param length samples at each place, an even number
   */
  void backward(double[] from, double[] to, int at, int other, int shift, int length) {
    for (int k = 0; k < length; k += CHUNK) {
      chunkBackward(from, to, at - k, other - k, shift, Math.min(CHUNK, length - k));
    }
  }

  private void chunkForward(double[] from, double[] to, int at, int other, int count) {
    double g = gain;
    double h = otherGain;
    int far = other - at;
    int lag1 = -lag;
    int lag2 = far - lag;
    double p1 = a1;
    double p2 = a2;
    double q1 = c1;
    double q2 = c2;
    double z1 = past(to, at - 1);
    double z2 = past(to, at - 2);
    double z3 = past(to, at - 3);
    double y1 = z1 + q1 * z2 + q2 * z3;
    double y2 = z2 + q1 * z3 + q2 * past(to, at - 4);
    double oz1 = past(to, other - 1);
    double oz2 = past(to, other - 2);
    double oz3 = past(to, other - 3);
    double oy1 = oz1 + q1 * oz2 + q2 * oz3;
    double oy2 = oz2 + q1 * oz3 + q2 * past(to, other - 4);
    for (int i = at; i < at + count; i += 2) {
      double w = g * (from[i] - from[i - 2]) + h * (from[i + lag1] - from[i + lag1 - 2]);
      double ow =
          g * (from[i + far] - from[i + far - 2]) + h * (from[i + lag2] - from[i + lag2 - 2]);
      y2 = (w - p2 * y2) - p1 * y1;
      oy2 = (ow - p2 * oy2) - p1 * oy1;
      z2 = (y2 - q2 * z2) - q1 * z1;
      oz2 = (oy2 - q2 * oz2) - q1 * oz1;
      to[i + far] = oz2;
      to[i] = z2;
      w = g * (from[i + 1] - from[i - 1]) + h * (from[i + lag1 + 1] - from[i + lag1 - 1]);
      ow =
          g * (from[i + far + 1] - from[i + far - 1])
              + h * (from[i + lag2 + 1] - from[i + lag2 - 1]);
      y1 = (w - p2 * y1) - p1 * y2;
      oy1 = (ow - p2 * oy1) - p1 * oy2;
      z1 = (y1 - q2 * z1) - q1 * z2;
      oz1 = (oy1 - q2 * oz1) - q1 * oz2;
      to[i + far + 1] = oz1;
      to[i + 1] = z1;
    }
  }

  // The same loop the other way: a step of either sign would keep the bounds checks in it.
  private void chunkBackward(double[] from, double[] to, int at, int other, int shift, int count) {
    double g = gain;
    double h = otherGain;
    int far = other - at;
    int lag1 = lag;
    int lag2 = far + lag;
    double p1 = a1;
    double p2 = a2;
    double q1 = c1;
    double q2 = c2;
    int toFar = far - shift;
    int toOther = other - shift;
    double z1 = past(to, at - shift + 1);
    double z2 = past(to, at - shift + 2);
    double z3 = past(to, at - shift + 3);
    double y1 = z1 + q1 * z2 + q2 * z3;
    double y2 = z2 + q1 * z3 + q2 * past(to, at - shift + 4);
    double oz1 = past(to, toOther + 1);
    double oz2 = past(to, toOther + 2);
    double oz3 = past(to, toOther + 3);
    double oy1 = oz1 + q1 * oz2 + q2 * oz3;
    double oy2 = oz2 + q1 * oz3 + q2 * past(to, toOther + 4);
    for (int i = at; i > at - count; i -= 2) {
      double w = g * (from[i] - from[i + 2]) + h * (from[i + lag1] - from[i + lag1 + 2]);
      double ow =
          g * (from[i + far] - from[i + far + 2]) + h * (from[i + lag2] - from[i + lag2 + 2]);
      y2 = (w - p2 * y2) - p1 * y1;
      oy2 = (ow - p2 * oy2) - p1 * oy1;
      z2 = (y2 - q2 * z2) - q1 * z1;
      oz2 = (oy2 - q2 * oz2) - q1 * oz1;
      to[i + toFar] = oz2;
      to[i - shift] = z2;
      w = g * (from[i - 1] - from[i + 1]) + h * (from[i + lag1 - 1] - from[i + lag1 + 1]);
      ow =
          g * (from[i + far - 1] - from[i + far + 1])
              + h * (from[i + lag2 - 1] - from[i + lag2 + 1]);
      y1 = (w - p2 * y1) - p1 * y2;
      oy1 = (ow - p2 * oy1) - p1 * oy2;
      z1 = (y1 - q2 * z1) - q1 * z2;
      oz1 = (oy1 - q2 * oz1) - q1 * oz2;
      to[i + toFar - 1] = oz1;
      to[i - shift - 1] = z1;
    }
  }

  private static double past(double[] to, int at) {
    return Math.abs(to[at]) < FADED ? 0 : to[at];
  }
}
