package org.lonefibre.analysis.chain;

import org.jspecify.annotations.Nullable;

/**
 * One end of a frequency response: the Butterworth law of order 1 to 6, run once or twice, nearest
 * to the gains.
 *
 * @param cornerHz where 3 dB are lost, interpolated between the tones
 * @param order order of each pass; 0 if no such filter fits within half a decibel
 * @param passes 1 or 2
 * @param steepest most that is lost over a third of an octave, in dB
 */
record RollOff(double cornerHz, int order, int passes, double steepest) {

  private static final double DEEPEST_DB = -30;
  private static final double FIT_DB = 0.5;

  /**
   * From gains against the pass band.
   *
   * @param away factor of {@code 1} for a low-pass, {@code -1} for a high-pass
   * @return null if 3 dB are lost nowhere at this end
   */
  static @Nullable RollOff of(double[] frequenciesHz, double[] gainsDb, int away) {
    int n = gainsDb.length;
    int best = 0;
    for (int i = 1; i < n; i++) {
      best = gainsDb[i] > gainsDb[best] ? i : best;
    }
    double corner = 0;
    double steepest = 0;
    for (int i = best; i + away >= 0 && i + away < n; i += away) {
      double here = gainsDb[i];
      double next = gainsDb[i + away];
      if (corner == 0 && here > -3.01 && next <= -3.01) {
        double part = (here + 3.01) / (here - next);
        corner = frequenciesHz[i] * Math.pow(frequenciesHz[i + away] / frequenciesHz[i], part);
      }
      steepest = Math.max(steepest, here - next);
    }
    return corner == 0 ? null : fit(frequenciesHz, gainsDb, away, best, corner, steepest);
  }

  private static RollOff fit(
      double[] frequenciesHz, double[] gainsDb, int away, int best, double corner, double most) {
    double least = FIT_DB;
    RollOff found = new RollOff(corner, 0, 1, most);
    for (int order = 1; order <= 6; order++) {
      for (int passes = 1; passes <= 2; passes++) {
        double one = corner / Math.pow(Math.pow(2, 1.0 / passes) - 1, away / (2.0 * order));
        for (double shift = -0.1; shift <= 0.1; shift += 0.005) {
          double squares = 0;
          int count = 0;
          for (int i = best; i >= 0 && i < gainsDb.length; i += away) {
            if (gainsDb[i] > DEEPEST_DB) {
              double u = Math.pow(frequenciesHz[i] / (one * Math.exp(shift)), away * 2 * order);
              squares += Math.pow(gainsDb[i] + 10 * passes * Math.log10(1 + u), 2);
              count++;
            }
          }
          double rest = Math.sqrt(squares / count);
          if (rest < least) {
            least = rest;
            found = new RollOff(corner, order, passes, most);
          }
        }
      }
    }
    return found;
  }
}
