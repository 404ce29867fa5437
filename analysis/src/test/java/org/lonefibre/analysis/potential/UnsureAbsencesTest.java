package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class UnsureAbsencesTest {

  private static final double NEAR = 10;

  private final UnitTrack one = track(new double[] {1000, 6000, 11_000}, 100);
  private final UnitTrack other = track(new double[] {3000, 6005, 14_000}, 80);

  @BeforeEach
  void theOtherLiesOnTheSecondDischarge() {
    one.presence[1][0] = Presence.ABSENT;
    one.presence[2][0] = Presence.ABSENT;
  }

  /** One of the two may have been taken for the other. */
  @Test
  void anAbsenceIsDoubtedWhereAnUncertainPotentialOfAnotherUnitLies() {
    other.presence[1][0] = Presence.UNCERTAIN;
    UnsureAbsences.doubtHidden(List.of(one, other), NEAR);
    assertThat(one.presence[1][0]).isEqualTo(Presence.UNCERTAIN);
    assertThat(one.presence[2][0]).isEqualTo(Presence.ABSENT);
  }

  @Test
  void anAbsenceStaysWhereTheOtherIsSureOrFarOff() {
    other.presence[2][0] = Presence.UNCERTAIN;
    UnsureAbsences.doubtHidden(List.of(one, other), NEAR);
    assertThat(one.presence[1][0]).isEqualTo(Presence.ABSENT);
  }

  /** What is much smaller cannot have been taken for it. */
  @Test
  void anAbsenceStaysWhereTheOtherIsMuchSmaller() {
    UnitTrack small = track(new double[] {3000, 6005, 14_000}, 30);
    small.presence[1][0] = Presence.UNCERTAIN;
    UnsureAbsences.doubtHidden(List.of(one, small), NEAR);
    assertThat(one.presence[1][0]).isEqualTo(Presence.ABSENT);
  }

  /** A potential that comes when another of its unit does makes that larger, and is not absent. */
  @Test
  void anAbsenceIsDoubtedWhereAnotherOfTheUnitHoldsIt() {
    UnitTrack unit = pair(24, 30);
    unit.presence[5][1] = Presence.ABSENT;
    unit.presence[8][1] = Presence.ABSENT;
    unit.scale[5][0] = 1.18;
    UnsureAbsences.doubt(unit, NEAR);
    assertThat(unit.presence[5][1]).isEqualTo(Presence.UNCERTAIN);
    assertThat(unit.presence[8][1]).isEqualTo(Presence.ABSENT);
  }

  @Test
  void anAbsenceStaysWhereTheLargerOneLiesOutOfReach() {
    UnitTrack unit = pair(24, 90);
    unit.presence[5][1] = Presence.ABSENT;
    unit.scale[5][0] = 1.18;
    UnsureAbsences.doubt(unit, NEAR);
    assertThat(unit.presence[5][1]).isEqualTo(Presence.ABSENT);
  }

  /** A large potential and one of a fifth of its size some samples behind it. */
  private static UnitTrack pair(int discharges, double lag) {
    double[] times = new double[discharges];
    Arrays.setAll(times, d -> 1000 + 4000.0 * d);
    UnitTrack unit = new UnitTrack(times, new int[discharges], new double[] {0, lag});
    unit.shape[0] = shape(100);
    unit.shape[1] = shape(20);
    unit.spread[1] = 6;
    for (int d = 0; d < discharges; d++) {
      Arrays.fill(unit.presence[d], Presence.PRESENT);
      Arrays.fill(unit.scale[d], 1);
      unit.arrival[d][0] = times[d];
      unit.arrival[d][1] = times[d] + lag;
    }
    return unit;
  }

  private static UnitTrack track(double[] times, double sizeUv) {
    UnitTrack unit = new UnitTrack(times, new int[times.length], new double[] {0});
    unit.shape[0] = shape(sizeUv);
    for (Presence[] presence : unit.presence) {
      Arrays.fill(presence, Presence.PRESENT);
    }
    return unit;
  }

  private static PotentialShape shape(double sizeUv) {
    double[] samples = new double[40];
    for (int k = 0; k < samples.length; k++) {
      double t = (k - 20) / 4.0;
      samples[k] = sizeUv * -t * Math.exp(-t * t / 2);
    }
    return new PotentialShape(samples, 20);
  }
}
