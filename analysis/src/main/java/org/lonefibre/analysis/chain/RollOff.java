package org.lonefibre.analysis.chain;

import org.jspecify.annotations.Nullable;

/**
 * One end of a frequency response: the Butterworth law of order 1 to 6, run once or twice, nearest
 * to the gains.
 *
 * @param cornerHz where 3 dB are lost, by the law, else interpolated between the tones
 * @param order order of each pass; 0 if no such filter fits within half a decibel
 * @param passes 1 or 2
 * @param steepest most that is lost over a third of an octave, in dB; up to 0.35 of the rate
 */
record RollOff(double cornerHz, int order, int passes, double steepest) {

  private static final double DEEPEST_DB = -30;
  private static final double FIT_DB = 0.5;
  private static final int FEWEST_SLOPING = 3;
  private static final double ABRUPT_UP_TO = 0.35;

  /**
   * From gains against the pass band.
   *
   * @param away {@code 1} for a low-pass, {@code -1} for a high-pass
   * @return null if 3 dB are lost nowhere at this end
   */
  static @Nullable RollOff of(double[] frequenciesHz, double[] gainsDb, double rateHz, int away) {
    int n = gainsDb.length;
    int best = 0;
    for (int i = 1; i < n; i++) {
      best = gainsDb[i] > gainsDb[best] ? i : best;
    }
    double corner = 0;
    double steepest = 0;
    int sloping = 0;
    for (int i = best; i + away >= 0 && i + away < n; i += away) {
      double here = gainsDb[i];
      double next = gainsDb[i + away];
      if (corner == 0 && here > -3.01 && next <= -3.01) {
        double part = (here + 3.01) / (here - next);
        corner = frequenciesHz[i] * Math.pow(frequenciesHz[i + away] / frequenciesHz[i], part);
      }
      if (frequenciesHz[i + away] < ABRUPT_UP_TO * rateHz) {
        steepest = Math.max(steepest, here - next);
      }
      sloping += next > DEEPEST_DB && next < -0.5 ? 1 : 0;
    }
    if (corner == 0) {
      return null;
    }
    RollOff found = new RollOff(corner, 0, 1, steepest);
    if (sloping < FEWEST_SLOPING) {
      return found;
    }
    double least = FIT_DB;
    for (int warped = 0; warped <= 1; warped++) {
      Axis axis = new Axis(warped == 1, rateHz);
      for (int order = 1; order <= 6; order++) {
        for (int passes = 1; passes <= 2; passes++) {
          double half = Math.pow(Math.pow(2, 1.0 / passes) - 1, away / (2.0 * order));
          for (double shift = -0.3; shift <= 0.3; shift += 0.01) {
            double three = axis.of(corner) * Math.exp(shift);
            double rest =
                rest(frequenciesHz, gainsDb, axis, best, away, three / half, order, passes);
            if (rest < least) {
              least = rest;
              found = new RollOff(axis.back(three), order, passes, steepest);
            }
          }
        }
      }
    }
    return found;
  }

  /** What the law leaves, in dB; the level of the pass band is free. */
  private static double rest(
      double[] frequenciesHz,
      double[] gainsDb,
      Axis axis,
      int best,
      int away,
      double corner,
      int order,
      int passes) {
    double sum = 0;
    double squares = 0;
    int count = 0;
    for (int i = best; i >= 0 && i < gainsDb.length; i += away) {
      if (gainsDb[i] > DEEPEST_DB) {
        double u = Math.pow(axis.of(frequenciesHz[i]) / corner, away * 2 * order);
        double difference = gainsDb[i] + 10 * passes * Math.log10(1 + u);
        sum += difference;
        squares += difference * difference;
        count++;
      }
    }
    return Math.sqrt(Math.max(0, squares - sum * sum / count) / count);
  }

  /** Frequency as an analogue filter has it, or as a digital one by the bilinear transform. */
  private record Axis(boolean warped, double rateHz) {

    double of(double frequencyHz) {
      return warped ? Math.tan(Math.PI * frequencyHz / rateHz) : frequencyHz;
    }

    double back(double value) {
      return warped ? Math.atan(value) * rateHz / Math.PI : value;
    }
  }
}
