package org.lonefibre.analysis.potential;

/**
 * Sums of the products of a wave with what lies under it in a window, at one place or at many. None
 * of the sums that are made at once waits for another, which is what takes time.
 */
final class Projections {

  private Projections() {}

  /**
   * The sums at places a sample apart.
   *
   * @param first index of the window under the wave's first value at the first place; what would
   *     lie outside the window counts as zero
   */
  static double[] along(double[] window, int first, double[] wave, int count) {
    double[] sums = new double[count];
    int k = 0;
    while (k < count) {
      boolean inside = first + k >= 0 && first + k + wave.length + 3 <= window.length;
      if (inside && k + 3 < count) {
        four(window, first + k, wave, sums, k);
        k += 4;
      } else {
        sums[k] = at(window, first + k, wave);
        k++;
      }
    }
    return sums;
  }

  /** The sum at one place; what would lie outside the window counts as zero. */
  static double at(double[] window, int first, double[] wave) {
    int from = Math.max(0, -first);
    int to = Math.min(wave.length, window.length - first);
    return product(window, first, wave, from, to);
  }

  private static void four(double[] window, int first, double[] wave, double[] to, int at) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = 0; k < wave.length; k++) {
      double height = wave[k];
      a += height * window[first + k];
      b += height * window[first + k + 1];
      c += height * window[first + k + 2];
      d += height * window[first + k + 3];
    }
    to[at] = a;
    to[at + 1] = b;
    to[at + 2] = c;
    to[at + 3] = d;
  }

  /** The sum for a part of the wave, by quarters of it. */
  static double product(double[] window, int first, double[] wave, int from, int to) {
    int quarter = Math.max(0, (to - from) / 4);
    int second = from + quarter;
    int third = second + quarter;
    int fourth = third + quarter;
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = 0; k < quarter; k++) {
      a += window[first + from + k] * wave[from + k];
      b += window[first + second + k] * wave[second + k];
      c += window[first + third + k] * wave[third + k];
      d += window[first + fourth + k] * wave[fourth + k];
    }
    for (int k = fourth + quarter; k < to; k++) {
      a += window[first + k] * wave[k];
    }
    return (a + b) + (c + d);
  }

  /** The sum of a wave with another as long. */
  static double dot(double[] wave, double[] other) {
    double sum = 0;
    for (int k = 0; k < wave.length; k++) {
      sum += wave[k] * other[k];
    }
    return sum;
  }
}
