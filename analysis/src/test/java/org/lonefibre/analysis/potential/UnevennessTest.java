package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Discharges of two units in one track need more to be said than in two. */
@Tag("unit")
class UnevennessTest {

  private static final int EACH = 80;
  private static final double INTERVAL_SAMPLES = 30;

  private final Unevenness unevenness = new Unevenness(0.05);

  @Test
  void twoUnitsInOneTrackAreMoreUnevenThanApart() {
    UnitTrack both = track(1.5, 0.04, 1);
    assertThat(unevenness.of(both)).isGreaterThan(apart(both) + 60);
  }

  /** What one of them lacks tells them apart as well. */
  @Test
  void aPotentialThatOneUnitLacksMakesThemUneven() {
    UnitTrack both = track(0, 0, 1);
    IntStream.range(0, EACH).forEach(d -> both.presence[2 * d][1] = Presence.ABSENT);
    assertThat(unevenness.of(both) - apart(both)).isCloseTo(2 * EACH * Math.log(2), within(1e-6));
  }

  /** But for chance: twice what a spread from as many discharges errs by, of size and interval. */
  @Test
  void oneUnitIsNotMoreEvenInTwoParts() {
    UnitTrack one = track(0, 0, 1);
    assertThat(unevenness.of(one)).isCloseTo(apart(one), within(30.0));
  }

  private double apart(UnitTrack both) {
    return unevenness.of(both.only(every(0))) + unevenness.of(both.only(every(1)));
  }

  private static int[] every(int first) {
    return IntStream.range(0, EACH).map(d -> 2 * d + first).toArray();
  }

  /** Discharges of two units by turns, whose second potential differs in interval and size. */
  private static UnitTrack track(double samplesApart, double sizesApart, long seed) {
    Random random = new Random(seed);
    double[] reference = IntStream.range(0, 2 * EACH).mapToDouble(d -> 4000.0 * d).toArray();
    UnitTrack track =
        new UnitTrack(reference, new int[2 * EACH], new double[] {0, INTERVAL_SAMPLES});
    for (int d = 0; d < 2 * EACH; d++) {
      double side = d % 2 == 0 ? -1 : 1;
      Arrays.fill(track.presence[d], Presence.PRESENT);
      Arrays.fill(track.scale[d], 1);
      track.arrival[d][0] = reference[d];
      track.arrival[d][1] =
          reference[d] + INTERVAL_SAMPLES + side * samplesApart + 0.6 * random.nextGaussian();
      track.scale[d][1] = 1 + side * sizesApart + 0.015 * random.nextGaussian();
    }
    return track;
  }
}
