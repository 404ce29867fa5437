package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class UnitMergerTest {

  private static final double SAMPLES_PER_US = 0.05;
  private static final int DISCHARGES = 90;

  /** A unit that was found in two parts, whichever discharges each part holds, is one. */
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3})
  void partsOfOneUnitBecomeOne(long seed) {
    double[] times = firing(new Random(seed), 5000);
    Random random = new Random(seed + 10);
    boolean[] first = new boolean[DISCHARGES];
    for (int d = 0; d < DISCHARGES; d++) {
      first[d] = random.nextDouble() < 0.6;
    }
    UnitTrack one = track(some(times, d -> first[d]));
    UnitTrack other = track(some(times, d -> !first[d]));
    assertThat(merged(one, other)).singleElement().extracting(u -> u.discharges).isEqualTo(90);
  }

  /** Two that fire steadily are two, however alike. */
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3})
  void twoSteadyUnitsStayTwo(long seed) {
    Random random = new Random(seed);
    assertThat(merged(track(firing(random, 5000)), track(firing(random, 4600)))).hasSize(2);
  }

  /**
   * Discharges of a third make one of them seem to fire at short intervals; it is not the other.
   */
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3})
  void aSteadyUnitDoesNotJoinOneThatHoldsForeignDischarges(long seed) {
    Random random = new Random(seed);
    double[] own = firing(random, 5000);
    double[] foreign = some(firing(random, 5300), d -> d % 2 == 0);
    double[] mixed =
        Arrays.stream(new double[][] {own, foreign}).flatMapToDouble(Arrays::stream).toArray();
    Arrays.sort(mixed);
    UnitTrack steady = track(some(firing(random, 4000), d -> d % 12 != 0));
    assertThat(merged(track(mixed), steady)).hasSize(2);
  }

  /**
   * What fires 2.3 ms behind nearly every discharge of another belongs to it, and its shapes too.
   */
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3})
  void unitsThatFireTogetherAreOne(long seed) {
    Random random = new Random(seed);
    double[] times = firing(random, 5000);
    double[] behind = Arrays.stream(times).map(t -> t + 115 + random.nextGaussian()).toArray();
    UnitTrack other = track(some(behind, d -> d % 12 != 0));
    assertThat(merged(track(times), other))
        .singleElement()
        .satisfies(
            unit -> {
              assertThat(unit.discharges).isEqualTo(DISCHARGES);
              assertThat(unit.lag).hasSize(4);
              assertThat(unit.lag[2]).isCloseTo(115, within(2.0));
              assertThat(unit.shape).doesNotContainNull();
            });
  }

  /**
   * A discharge or two that happen to lie near those of another do not make a unit a part of it.
   */
  @Test
  void aFewDischargesAreNoUnitThatFiresTogether() {
    double[] times = firing(new Random(4), 5000);
    double[] behind = Arrays.stream(times).limit(2).map(t -> t + 115).toArray();
    assertThat(merged(track(times), track(behind))).hasSize(2);
  }

  private static List<UnitTrack> merged(UnitTrack one, UnitTrack other) {
    return new UnitMerger(SAMPLES_PER_US).merge(List.of(one, other));
  }

  /** Discharge times in samples, a tenth of an interval irregular. */
  private static double[] firing(Random random, double interval) {
    double[] times = new double[DISCHARGES];
    double at = interval * random.nextDouble();
    for (int d = 0; d < DISCHARGES; d++) {
      times[d] = at;
      at += interval * (1 + 0.1 * random.nextGaussian());
    }
    return times;
  }

  private static double[] some(double[] times, IntPredicate wanted) {
    return IntStream.range(0, times.length).filter(wanted).mapToDouble(d -> times[d]).toArray();
  }

  /** Two potentials 1 ms apart, the same in every track. */
  private static UnitTrack track(double[] times) {
    UnitTrack unit = new UnitTrack(times, new int[times.length], new double[] {0, 50});
    for (int p = 0; p < 2; p++) {
      double[] samples = new double[40];
      for (int k = 0; k < samples.length; k++) {
        double t = (k - 20) / 4.0;
        samples[k] = (p + 1) * -t * Math.exp(-t * t / 2);
      }
      unit.shape[p] = new PotentialShape(samples, 20);
    }
    for (Presence[] presence : unit.presence) {
      Arrays.fill(presence, Presence.PRESENT);
    }
    return unit;
  }
}
