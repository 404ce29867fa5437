package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** A unit of two like potentials, a quarter of its discharges taken up at the second of them. */
@Tag("unit")
class MirroredDischargesTest {

  private static final int DISCHARGES = 40;
  private static final double INTERVAL_SAMPLES = 5000;
  private static final double LAG_SAMPLES = 125;

  private final MirroredDischarges mirrored = new MirroredDischarges(0.05);

  @Test
  void dischargesTakenUpAtTheOtherPotentialAreMoved() {
    UnitTrack straight = mirrored.straightened(track(false));
    assertThat(straight.lag).containsExactly(0, LAG_SAMPLES);
    assertThat(straight.reference)
        .containsExactly(IntStream.range(0, DISCHARGES).mapToDouble(d -> place(d)).toArray());
    assertThat(straight.presentCount(1)).isEqualTo(DISCHARGES);
  }

  @Test
  void threePotentialsThatComeTogetherStay() {
    UnitTrack unit = track(true);
    assertThat(mirrored.straightened(unit)).isSameAs(unit);
  }

  @Test
  void sidesThatAreNotAsFarStay() {
    UnitTrack unit = track(false);
    unit.lag[2] -= 10;
    assertThat(mirrored.straightened(unit)).isSameAs(unit);
  }

  /** Every fourth discharge lies at the second potential, with the first before it. */
  private static UnitTrack track(boolean together) {
    double[] reference =
        IntStream.range(0, DISCHARGES)
            .mapToDouble(d -> place(d) + (isOther(d) ? LAG_SAMPLES : 0))
            .toArray();
    UnitTrack track =
        new UnitTrack(reference, new int[DISCHARGES], new double[] {0, LAG_SAMPLES, -LAG_SAMPLES});
    for (int d = 0; d < DISCHARGES; d++) {
      track.presence[d][0] = Presence.PRESENT;
      track.presence[d][1] = together || !isOther(d) ? Presence.PRESENT : Presence.ABSENT;
      track.presence[d][2] = together || isOther(d) ? Presence.PRESENT : Presence.ABSENT;
    }
    return track;
  }

  private static double place(int d) {
    return 1000 + INTERVAL_SAMPLES * d;
  }

  private static boolean isOther(int d) {
    return d % 4 == 3;
  }
}
