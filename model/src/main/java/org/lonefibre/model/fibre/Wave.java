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

  FibrePotential potential() {
    return new FibrePotential(-beforeUs, STEP_US, values);
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

  /** Whether it falls where it was cut at, its steepest point. */
  boolean falls() {
    int middle = middle();
    return values[middle + 1] < values[middle - 1];
  }

  /**
   * Half of the height of the steep phase of this and another that comes later, where this has its
   * own: from turn to turn about the steepest point that lies in it.
   */
  double middleLevelUv(Wave other, double delayUs) {
    double sign = falls() ? -1 : 1;
    Wave sum = plus(other, delayUs);
    int steepest = middle();
    for (int i = edge(-1, sign); i <= edge(1, sign); i++) {
      steepest = sign * sum.rise(i) > sign * sum.rise(steepest) ? i : steepest;
    }
    return (sum.values[sum.turn(steepest, -1, sign)] + sum.values[sum.turn(steepest, 1, sign)]) / 2;
  }

  private int middle() {
    return (int) Math.round(beforeUs / STEP_US);
  }

  private int edge(int direction, double sign) {
    return turn(middle(), direction, sign);
  }

  private double rise(int index) {
    return index < 1 || index > values.length - 2 ? 0 : values[index + 1] - values[index - 1];
  }

  /** The last place on the way from one to a turn. */
  private int turn(int from, int direction, double sign) {
    int at = from;
    while (at + direction >= 0
        && at + direction < values.length
        && sign * direction * (values[at + direction] - values[at]) > 0) {
      at += direction;
    }
    return at;
  }

  /**
   * When this and another that comes later cross a level the way that this one's steepest point
   * runs, nearest to a time; times are from the steepest point it was cut at. If they never do, the
   * time itself.
   */
  double crossingUs(Wave other, double delayUs, double levelUv, double nearUs) {
    boolean falls = falls();
    double shift = delayUs / STEP_US;
    int near = (int) Math.floor((nearUs + beforeUs) / STEP_US);
    for (int away = 0; away < values.length; away++) {
      for (int i : new int[] {near + away, near - away}) {
        if (i < 0 || i + 1 >= values.length) {
          continue;
        }
        double a = values[i] + read(other.values, i - shift) - levelUv;
        double b = values[i + 1] + read(other.values, i + 1 - shift) - levelUv;
        if (falls ? a > 0 && b <= 0 : a < 0 && b >= 0) {
          return (i + a / (a - b)) * STEP_US - beforeUs;
        }
      }
    }
    return nearUs;
  }
}
