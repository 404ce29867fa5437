package org.lonefibre.validation.campaign;

import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.tissue.Tissue;

/** A potential of the model between 500 Hz and 10 kHz (Butterworth of order 2 each, no phase). */
final class BandShape {

  private static final int SPECTRUM = 4096;
  private static final double HIGH_PASS_HZ = 500;
  private static final double LOW_PASS_HZ = 10_000;

  final double[] raw;
  final double[] filtered;
  final double stepUs;

  BandShape(ShapeFamily family, double distanceMm, double stepUs) {
    this.stepUs = stepUs;
    double fineUs = Math.min(stepUs, 10);
    double[] fine =
        family
            .solver(Tissue.defaults())
            .solve(FibreGeometry.defaults().withDistanceMm(distanceMm), fineUs, 0.02)
            .copyUv();
    int every = (int) Math.round(stepUs / fineUs);
    raw = new double[fine.length / every];
    for (int i = 0; i < raw.length; i++) {
      raw[i] = fine[i * every];
    }
    filtered = filter();
  }

  /** Root of the mean square of white noise of one unit a sample after the filter. */
  double noise() {
    double sum = 0;
    for (int k = 0; k < SPECTRUM; k++) {
      sum += Math.pow(gain(Math.min(k, SPECTRUM - k)), 2) / SPECTRUM;
    }
    return Math.sqrt(sum);
  }

  double peakToPeak() {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double value : filtered) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return high - low;
  }

  private double gain(int bin) {
    double hz = bin / (SPECTRUM * stepUs * 1e-6);
    double high = bin == 0 ? 0 : 1 / Math.sqrt(1 + Math.pow(HIGH_PASS_HZ / hz, 4));
    return high / Math.sqrt(1 + Math.pow(hz / LOW_PASS_HZ, 4));
  }

  private double[] filter() {
    double[] out = new double[raw.length];
    for (int k = 1; k <= SPECTRUM / 2; k++) {
      double w = 2 * Math.PI * k / SPECTRUM;
      double re = 0;
      double im = 0;
      for (int i = 0; i < raw.length; i++) {
        re += raw[i] * Math.cos(w * i);
        im -= raw[i] * Math.sin(w * i);
      }
      double weight = gain(k) * (k == SPECTRUM / 2 ? 1 : 2) / SPECTRUM;
      for (int i = 0; i < out.length; i++) {
        out[i] += weight * (re * Math.cos(w * i) - im * Math.sin(w * i));
      }
    }
    return out;
  }
}
