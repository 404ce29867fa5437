package org.lonefibre.validation.campaign;

import org.lonefibre.signal.random.RandomStream;

/** Jitter of a potential that a second fibre of the same shape has joined, timed by template. */
final class ContaminationTrial {

  private static final int SWEEPS = 1000;
  private static final int ROUNDS = 4;
  private static final int STEPS = 12;
  private static final double MARGIN_US = 700;

  /** Mean difference of two Gaussian values over their deviation. */
  private static final double MEAN_DIFFERENCE = 2 / Math.sqrt(Math.PI);

  private final BandShape shape;
  private final int margin;
  private final int length;

  ContaminationTrial(BandShape shape) {
    this.shape = shape;
    this.margin = (int) (MARGIN_US / shape.stepUs);
    this.length = shape.filtered.length + 2 * margin;
  }

  /** Measured over true mean consecutive difference. */
  double ratio(double ownUs, double otherUs, double relative, double delayUs, RandomStream random) {
    double[][] sweeps = new double[SWEEPS][];
    double[] own = new double[SWEEPS];
    for (int i = 0; i < SWEEPS; i++) {
      own[i] = ownUs / MEAN_DIFFERENCE * random.gaussianRatio();
      double other = delayUs + otherUs / MEAN_DIFFERENCE * random.gaussianRatio();
      sweeps[i] = new double[length];
      for (int k = 0; k < length; k++) {
        sweeps[i][k] =
            at(shape.filtered, k - margin - own[i] / shape.stepUs)
                + relative * at(shape.filtered, k - margin - other / shape.stepUs);
      }
    }
    double[] found = new double[SWEEPS];
    for (int round = 0; round < ROUNDS; round++) {
      double[] template = mean(sweeps, found);
      for (int i = 0; i < SWEEPS; i++) {
        found[i] = align(sweeps[i], template, found[i]);
      }
    }
    return meanDifference(found) * shape.stepUs / meanDifference(own);
  }

  private double[] mean(double[][] sweeps, double[] shifts) {
    double[] mean = new double[length];
    for (int i = 0; i < SWEEPS; i++) {
      for (int k = 0; k < length; k++) {
        mean[k] += at(sweeps[i], k + shifts[i]) / SWEEPS;
      }
    }
    return mean;
  }

  /** Shift at which the template, of free size, fits best. */
  private double align(double[] sweep, double[] template, double start) {
    double shift = start;
    for (int step = 0; step < STEPS; step++) {
      double cross = 0;
      double energy = 0;
      double slopes = 0;
      double along = 0;
      for (int k = 1; k + 1 < length; k++) {
        double value = at(sweep, k + shift);
        double slope = (template[k + 1] - template[k - 1]) / 2;
        cross += value * template[k];
        energy += template[k] * template[k];
        slopes += slope * slope;
        along += value * slope;
      }
      double move = -along / Math.max(1e-9, slopes * cross / energy);
      shift += Math.max(-3, Math.min(3, move));
      if (Math.abs(move) < 1e-4) {
        break;
      }
    }
    return shift;
  }

  private static double meanDifference(double[] values) {
    double sum = 0;
    for (int i = 1; i < values.length; i++) {
      sum += Math.abs(values[i] - values[i - 1]);
    }
    return sum / (values.length - 1);
  }

  /** Cubic through four points; nothing beyond the ends. */
  private static double at(double[] wave, double place) {
    int k = (int) Math.floor(place);
    double t = place - k;
    double a = value(wave, k - 1);
    double b = value(wave, k);
    double c = value(wave, k + 1);
    double d = value(wave, k + 2);
    return b + t / 2 * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
  }

  private static double value(double[] wave, int k) {
    return k < 0 || k >= wave.length ? 0 : wave[k];
  }
}
