package org.lonefibre.validation.campaign;

import org.jspecify.annotations.Nullable;

/**
 * Counts of intervals that hold the truth.
 *
 * @param trials intervals looked at
 * @param below of those, truth below the interval
 * @param above truth above it
 * @param sumRatio sum of value over truth, of those with a value
 * @param values number of those with a value
 */
record Coverage(int trials, int below, int above, double sumRatio, int values) {

  static final Coverage NONE = new Coverage(0, 0, 0, 0, 0);

  /** One interval against the truth; a missing end does not exclude anything. */
  static Coverage of(
      @Nullable Double low, @Nullable Double value, @Nullable Double high, double truth) {
    return new Coverage(
        1,
        low != null && truth < low ? 1 : 0,
        high != null && truth > high ? 1 : 0,
        value == null ? 0 : value / truth,
        value == null ? 0 : 1);
  }

  Coverage plus(Coverage other) {
    return new Coverage(
        trials + other.trials,
        below + other.below,
        above + other.above,
        sumRatio + other.sumRatio,
        values + other.values);
  }

  double holdsPercent() {
    return trials == 0 ? 0 : 100.0 * (trials - below - above) / trials;
  }

  double belowPercent() {
    return trials == 0 ? 0 : 100.0 * below / trials;
  }

  double abovePercent() {
    return trials == 0 ? 0 : 100.0 * above / trials;
  }

  double valuePercent() {
    return trials == 0 ? 0 : 100.0 * values / trials;
  }

  double meanRatio() {
    return values == 0 ? 0 : sumRatio / values;
  }
}
