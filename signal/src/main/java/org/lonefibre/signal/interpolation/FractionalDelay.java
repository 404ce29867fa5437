package org.lonefibre.signal.interpolation;

/**
 * Reads a sampled, band-limited signal at fractional positions by a windowed sinc of {@value
 * #HALF_TAPS} samples on either side (cosine-squared window).
 *
 * <ul>
 *   <li>Samples outside the array count as zero.
 *   <li>Error below 1e-3 of the amplitude up to 0.6 of the Nyquist frequency.
 *   <li>Kernels of whole 64ths of a sample are made once for all.
 *   <li>Thread rule: not safe; one instance a thread (it keeps the kernel of the last shift).
 * </ul>
 */
public final class FractionalDelay {

  /** Samples used on either side. */
  public static final int HALF_TAPS = 10;

  private static final int KNOWN_STEPS = 64;
  private static final double[][] KNOWN = new double[KNOWN_STEPS][2 * HALF_TAPS];

  /** Turns from the first tap's angle of the window to each other tap's. */
  private static final double[] TURN_COS = new double[2 * HALF_TAPS];

  private static final double[] TURN_SIN = new double[2 * HALF_TAPS];

  static {
    for (int j = 0; j < 2 * HALF_TAPS; j++) {
      TURN_COS[j] = Math.cos(Math.PI * (j - HALF_TAPS + 1) / (2 * HALF_TAPS));
      TURN_SIN[j] = Math.sin(Math.PI * (j - HALF_TAPS + 1) / (2 * HALF_TAPS));
    }
    for (int step = 1; step < KNOWN_STEPS; step++) {
      fill(KNOWN[step], (double) step / KNOWN_STEPS);
    }
  }

  private final double[] own = new double[2 * HALF_TAPS];
  private double[] kernel = own;

  /**
   * Fills {@code destination[k]} with the signal at {@code startSamples + k}.
   *
   * @param signal samples
   * @param startSamples fractional index of the first value wanted
   * @param destination receives {@code length} values
   * @param length number of values
   */
  public void read(double[] signal, double startSamples, double[] destination, int length) {
    int whole = (int) Math.floor(startSamples);
    double fraction = startSamples - whole;
    if (fraction < 1e-9) {
      copy(signal, whole, destination, length);
      return;
    }
    prepare(fraction);
    int first = whole - HALF_TAPS + 1;
    int k = 0;
    while (k < length) {
      if (first + k >= 0 && k + 3 < length && first + k + 2 * HALF_TAPS + 3 <= signal.length) {
        four(signal, first + k, destination, k);
        k += 4;
        continue;
      }
      int from = first + k;
      int low = Math.max(0, -from);
      int high = Math.min(2 * HALF_TAPS, signal.length - from);
      double sum = 0;
      for (int j = low; j < high; j++) {
        sum += kernel[j] * signal[from + j];
      }
      destination[k++] = sum;
    }
  }

  /** Four values at once, each the same sum: none waits for another. */
  private void four(double[] signal, int from, double[] destination, int to) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int j = 0; j < 2 * HALF_TAPS; j++) {
      double tap = kernel[j];
      a += tap * signal[from + j];
      b += tap * signal[from + j + 1];
      c += tap * signal[from + j + 2];
      d += tap * signal[from + j + 3];
    }
    destination[to] = a;
    destination[to + 1] = b;
    destination[to + 2] = c;
    destination[to + 3] = d;
  }

  private static void copy(double[] signal, int whole, double[] destination, int length) {
    for (int k = 0; k < length; k++) {
      int index = whole + k;
      destination[k] = index >= 0 && index < signal.length ? signal[index] : 0;
    }
  }

  private void prepare(double fraction) {
    double steps = fraction * KNOWN_STEPS;
    if (steps == Math.rint(steps)) {
      kernel = KNOWN[(int) steps];
    } else {
      kernel = own;
      fill(own, fraction);
    }
  }

  private static void fill(double[] kernel, double fraction) {
    double sine = Math.sin(Math.PI * fraction) / Math.PI;
    double cos = Math.cos(Math.PI * fraction / (2 * HALF_TAPS));
    double sin = Math.sin(Math.PI * fraction / (2 * HALF_TAPS));
    for (int j = 0; j < 2 * HALF_TAPS; j++) {
      double distance = fraction - (j - HALF_TAPS + 1);
      double window = cos * TURN_COS[j] + sin * TURN_SIN[j];
      double sign = (j - HALF_TAPS + 1) % 2 == 0 ? 1 : -1;
      kernel[j] = sign * sine / distance * window * window;
    }
  }
}
