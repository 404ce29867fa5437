package org.lonefibre.analysis.potential;

import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Places at which one unit may have fired so that a potential of it is what was taken for one of
 * another.
 */
final class AlikePlaces {

  private static final double ALIKE = 2;

  private AlikePlaces() {}

  /**
   * Where the other unit may have fired so that one of its potentials is what was seen, in samples.
   */
  static double[] of(UnitTrack unit, int d, UnitTrack other) {
    return IntStream.range(0, unit.potentials)
        .filter(p -> unit.isPresent(d, p))
        .boxed()
        .flatMapToDouble(p -> of(unit.shape[p], unit.arrival[d][p], other))
        .toArray();
  }

  private static DoubleStream of(PotentialShape shape, double arrival, UnitTrack other) {
    return IntStream.range(0, other.potentials)
        .filter(q -> areAlike(shape, other.shape[q]))
        .mapToDouble(q -> arrival - other.lag[q]);
  }

  private static boolean areAlike(PotentialShape one, PotentialShape other) {
    double ratio = one.energy() / other.energy();
    return ratio < ALIKE && ratio > 1 / ALIKE;
  }
}
