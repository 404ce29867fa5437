package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.signal.interpolation.FractionalDelay;

/**
 * The shape of a potential at the sampling rate of its channel, with the arrival at a known index;
 * it can be placed at any fraction of a sample.
 *
 * <ul>
 *   <li>Placing uses copies of the shape shifted by 1/{@value #PHASES} of a sample and its slope
 *       for the rest; the error is of second order in 1/64 of a sample.
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class PotentialShape {

  private static final int PHASES = 32;

  private final int origin;
  private final int length;
  private final double[][] values = new double[PHASES][];
  private final double[][] slopes = new double[PHASES][];
  private final double energy;
  private final double slopeEnergy;

  /**
   * @param samples the shape, its ends near zero
   * @param origin index of the arrival in {@code samples}
   */
  PotentialShape(double[] samples, int origin) {
    this.origin = origin;
    this.length = samples.length;
    FractionalDelay delay = new FractionalDelay();
    for (int phase = 0; phase < PHASES; phase++) {
      values[phase] = new double[length];
      delay.read(samples, (double) -phase / PHASES, values[phase], length);
    }
    double[] earlier = new double[length];
    double[] later = new double[length];
    delay.read(samples, 1.0 / PHASES, earlier, length);
    delay.read(samples, -1, later, length);
    for (int phase = 0; phase < PHASES; phase++) {
      slopes[phase] =
          slope(
              phase == 0 ? earlier : values[phase - 1],
              phase == PHASES - 1 ? later : values[phase + 1]);
    }
    this.energy = Projections.dot(samples, samples);
    this.slopeEnergy = Projections.dot(slopes[0], slopes[0]);
  }

  /** Slope in the middle between two shapes, one placed a phase before it and one a phase after. */
  private static double[] slope(double[] before, double[] after) {
    double[] slope = new double[before.length];
    for (int k = 0; k < slope.length; k++) {
      slope[k] = (before[k] - after[k]) * (PHASES / 2.0);
    }
    return slope;
  }

  private PotentialShape(PotentialShape of, double factor) {
    this.origin = of.origin;
    this.length = of.length;
    for (int phase = 0; phase < PHASES; phase++) {
      values[phase] = times(of.values[phase], factor);
      slopes[phase] = times(of.slopes[phase], factor);
    }
    this.energy = of.energy * factor * factor;
    this.slopeEnergy = of.slopeEnergy * factor * factor;
  }

  private static double[] times(double[] values, double factor) {
    double[] scaled = values.clone();
    for (int k = 0; k < scaled.length; k++) {
      scaled[k] *= factor;
    }
    return scaled;
  }

  /** The same shape, larger or smaller. */
  PotentialShape scaled(double factor) {
    return new PotentialShape(this, factor);
  }

  /** The same wave with the arrival so many samples later in it; zeros come in at its end. */
  PotentialShape movedBy(int samples) {
    return new PotentialShape(piece(samples, length), origin);
  }

  /** The same wave from so many samples before its arrival to so many after; zeros come in. */
  PotentialShape reaching(int before, int after) {
    return new PotentialShape(piece(origin - before, before + after + 1), before);
  }

  private double[] piece(int first, int count) {
    double[] piece = new double[count];
    for (int k = Math.max(0, -first); k < count && first + k < length; k++) {
      piece[k] = values[0][first + k];
    }
    return piece;
  }

  /** Index of the arrival. */
  public int origin() {
    return origin;
  }

  /** Number of samples. */
  public int length() {
    return length;
  }

  /** A copy of the samples. */
  public double[] samples() {
    return Arrays.copyOf(values[0], length);
  }

  /** Maximum minus minimum. */
  public double peakToPeakUv() {
    double high = Double.NEGATIVE_INFINITY;
    double low = Double.POSITIVE_INFINITY;
    for (double value : values[0]) {
      high = Math.max(high, value);
      low = Math.min(low, value);
    }
    return length == 0 ? 0 : high - low;
  }

  double energy() {
    return energy;
  }

  double slopeEnergy() {
    return slopeEnergy;
  }

  /** Index in a window at which the first sample of the shape falls when placed at a position. */
  int firstIndex(double positionSamples) {
    return (int) Math.floor(positionSamples + 0.5 / PHASES) - origin;
  }

  /** Fills the shape as placed at a position of a window. */
  void place(double positionSamples, double[] shape) {
    int phase = phase(positionSamples);
    double rest = rest(positionSamples, phase);
    double[] value = values[phase];
    double[] rise = slopes[phase];
    for (int k = 0; k < length; k++) {
      shape[k] = value[k] - rest * rise[k];
    }
  }

  /** The slope as placed at a position of a window; not to be changed. */
  double[] slopeAt(double positionSamples) {
    return slopes[phase(positionSamples)];
  }

  /** Adds {@code scale} times the shape placed at a position to a window. */
  void addTo(double[] window, double positionSamples, double scale) {
    int phase = phase(positionSamples);
    double rest = rest(positionSamples, phase);
    int first = firstIndex(positionSamples);
    double[] value = values[phase];
    double[] rise = slopes[phase];
    int from = Math.max(0, -first);
    int to = Math.min(length, window.length - first);
    for (int k = from; k < to; k++) {
      window[first + k] += scale * (value[k] - rest * rise[k]);
    }
  }

  /** Projection of a window on the shape placed at a whole or half position. */
  double project(double[] window, double positionSamples) {
    return Projections.at(window, firstIndex(positionSamples), values[phase(positionSamples)]);
  }

  /** Projections at a position and at each of those a sample apart behind it. */
  double[] projectFrom(double[] window, double positionSamples, int count) {
    return Projections.along(
        window, firstIndex(positionSamples), values[phase(positionSamples)], count);
  }

  /** Projections at a position and at each of those half a sample apart behind it. */
  double[] projectByHalves(double[] window, double positionSamples, int count) {
    double[] whole = projectFrom(window, positionSamples, (count + 1) / 2);
    double[] half = projectFrom(window, positionSamples + 0.5, count / 2);
    double[] projections = new double[count];
    for (int k = 0; k < count; k++) {
      projections[k] = k % 2 == 0 ? whole[k / 2] : half[k / 2];
    }
    return projections;
  }

  private static int phase(double positionSamples) {
    double base = Math.floor(positionSamples + 0.5 / PHASES);
    return Math.max(0, Math.min(PHASES - 1, (int) Math.round((positionSamples - base) * PHASES)));
  }

  /** What is left of a position behind its phase. */
  private static double rest(double positionSamples, int phase) {
    return positionSamples - Math.floor(positionSamples + 0.5 / PHASES) - (double) phase / PHASES;
  }

  /** Standard error of the size (1 = as the shape) that coloured noise gives. */
  double scaleError(double noiseUv, double[] correlation) {
    return noiseUv * Math.sqrt(quadratic(values[0], correlation)) / energy;
  }

  /** Standard error of the arrival, in samples, that coloured noise gives. */
  double arrivalError(double noiseUv, double[] correlation) {
    return noiseUv * Math.sqrt(quadratic(slopes[0], correlation)) / slopeEnergy;
  }

  /** The same where this shape is placed by another wave as long, the weighted one. */
  double arrivalError(double noiseUv, double[] correlation, PotentialShape weighted) {
    double gain = Projections.dot(slopes[0], weighted.slopes[0]);
    return noiseUv * Math.sqrt(quadratic(weighted.slopes[0], correlation)) / gain;
  }

  private static double quadratic(double[] v, double[] correlation) {
    double sum = 0;
    int lags = Math.min(v.length, correlation.length);
    double[] product = new double[4];
    // Four distances at a time: no sum waits for another.
    for (int lag = 0; lag < lags; lag += product.length) {
      products(v, lag, product);
      for (int l = lag; l < Math.min(lags, lag + product.length); l++) {
        sum += (l == 0 ? 1 : 2) * correlation[l] * product[l - lag];
      }
    }
    return Math.max(sum, 1e-12);
  }

  /** Products of values with those {@code lag} to {@code lag + 3} before. */
  private static void products(double[] v, int lag, double[] product) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = lag; k < Math.min(v.length, lag + 3); k++) {
      a += v[k] * v[k - lag];
      b += k > lag ? v[k] * v[k - lag - 1] : 0;
      c += k > lag + 1 ? v[k] * v[k - lag - 2] : 0;
    }
    for (int k = lag + 3; k < v.length; k++) {
      double value = v[k];
      a += value * v[k - lag];
      b += value * v[k - lag - 1];
      c += value * v[k - lag - 2];
      d += value * v[k - lag - 3];
    }
    product[0] = a;
    product[1] = b;
    product[2] = c;
    product[3] = d;
  }
}
