package org.lonefibre.model.fibre;

/**
 * A potential about its steepest point, evenly sampled, to be added to others at any delay.
 *
 * <p>Thread rule: immutable.
 */
final class Wave {

  static final double STEP_US = 2;

  private final double beforeUs;
  private final double[] values;

  private Wave(double beforeUs, double[] values) {
    this.beforeUs = beforeUs;
    this.values = values;
  }

  /** A potential of {@link #STEP_US}, from so long before its steepest point to so long after. */
  static Wave of(FibrePotential potential, double beforeUs, double afterUs) {
    double[] all = potential.copyUv();
    double[] values = new double[(int) Math.round((beforeUs + afterUs) / STEP_US) + 1];
    double from = (potential.steepestUs() - beforeUs - potential.startUs()) / STEP_US;
    for (int i = 0; i < values.length; i++) {
      values[i] = read(all, from + i);
    }
    return new Wave(beforeUs, values);
  }

  private static double read(double[] values, double place) {
    int below = (int) Math.floor(place);
    if (below < 0 || below + 1 >= values.length) {
      return 0;
    }
    return values[below] + (place - below) * (values[below + 1] - values[below]);
  }

  Wave times(double factor) {
    double[] more = new double[values.length];
    for (int i = 0; i < more.length; i++) {
      more[i] = factor * values[i];
    }
    return new Wave(beforeUs, more);
  }

  /** This and another that comes later by a delay. */
  Wave plus(Wave other, double delayUs) {
    double[] sum = new double[values.length];
    double shift = delayUs / STEP_US;
    for (int i = 0; i < sum.length; i++) {
      sum[i] = values[i] + read(other.values, i - shift);
    }
    return new Wave(beforeUs, sum);
  }

  Wave slopes() {
    double[] slopes = new double[values.length];
    for (int i = 1; i < slopes.length - 1; i++) {
      slopes[i] = values[i + 1] - values[i - 1];
    }
    return new Wave(beforeUs, slopes);
  }

  double steepest() {
    double most = 0;
    for (int i = 1; i < values.length - 1; i++) {
      most = Math.max(most, Math.abs(values[i + 1] - values[i - 1]));
    }
    return most;
  }

  double amplitudeUv() {
    double low = 0;
    double high = 0;
    for (double value : values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return high - low;
  }

  /** How often it turns, swings smaller than a threshold left out. */
  int turns(double threshold) {
    double low = 0;
    double high = 0;
    int direction = 0;
    int turns = 0;
    for (double value : values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
      if (direction >= 0 && value < high - threshold) {
        turns += direction > 0 ? 1 : 0;
        direction = -1;
        low = value;
      } else if (direction <= 0 && value > low + threshold) {
        turns += direction < 0 ? 1 : 0;
        direction = 1;
        high = value;
      }
      if (direction > 0) {
        low = value;
      } else if (direction < 0) {
        high = value;
      }
    }
    return turns;
  }

  /** The value at its steepest point's flank, halfway between the turns on either side. */
  double middleLevelUv() {
    int middle = (int) Math.round(beforeUs / STEP_US);
    double sign = Math.signum(values[middle + 1] - values[middle - 1]);
    int first = middle;
    while (first > 0 && sign * (values[first] - values[first - 1]) > 0) {
      first--;
    }
    int last = middle;
    while (last < values.length - 1 && sign * (values[last + 1] - values[last]) > 0) {
      last++;
    }
    return (values[first] + values[last]) / 2;
  }

  /**
   * When it crosses a level the way that its steepest point runs, nearest to a time; times are from
   * the steepest point it was cut at. If it never does, the time itself.
   */
  double crossingUs(double levelUv, double nearUs) {
    double best = Double.MAX_VALUE;
    boolean falls = values[steepestIndex() + 1] < values[steepestIndex() - 1];
    for (int i = 0; i + 1 < values.length; i++) {
      double a = values[i] - levelUv;
      double b = values[i + 1] - levelUv;
      if (falls ? a > 0 && b <= 0 : a < 0 && b >= 0) {
        double at = (i + a / (a - b)) * STEP_US - beforeUs;
        if (Math.abs(at - nearUs) < Math.abs(best - nearUs)) {
          best = at;
        }
      }
    }
    return best == Double.MAX_VALUE ? nearUs : best;
  }

  private int steepestIndex() {
    int best = 1;
    double most = 0;
    for (int i = 1; i < values.length - 1; i++) {
      if (Math.abs(values[i + 1] - values[i - 1]) > most) {
        most = Math.abs(values[i + 1] - values[i - 1]);
        best = i;
      }
    }
    return best;
  }
}
