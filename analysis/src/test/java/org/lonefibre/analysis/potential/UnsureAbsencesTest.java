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

  private static UnitTrack track(double[] times, double sizeUv) {
    UnitTrack unit = new UnitTrack(times, new int[times.length], new double[] {0});
    double[] samples = new double[40];
    for (int k = 0; k < samples.length; k++) {
      double t = (k - 20) / 4.0;
      samples[k] = sizeUv * -t * Math.exp(-t * t / 2);
    }
    unit.shape[0] = new PotentialShape(samples, 20);
    for (Presence[] presence : unit.presence) {
      Arrays.fill(presence, Presence.PRESENT);
    }
    return unit;
  }
}
