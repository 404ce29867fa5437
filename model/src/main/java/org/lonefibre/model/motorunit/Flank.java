package org.lonefibre.model.motorunit;

/** The stretch about a place over which a signal rises, or falls, without a turn. */
final class Flank {

  private final double[] values;
  private final int first;
  private final int last;

  Flank(double[] values, int place) {
    this.values = values;
    double sign = Math.signum(values[place + 1] - values[place - 1]);
    int from = place;
    while (from > 0 && sign * (values[from] - values[from - 1]) > 0) {
      from--;
    }
    int to = place;
    while (to < values.length - 1 && sign * (values[to + 1] - values[to]) > 0) {
      to++;
    }
    first = from;
    last = to;
  }

  int last() {
    return last;
  }

  double heightUv() {
    return Math.abs(values[last] - values[first]);
  }

  double lengthUs() {
    return (last - first) * SampleMuscle.STEP_US;
  }

  boolean falls() {
    return values[last] < values[first];
  }
}
