package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class DischargeSieveTest {

  /** Of two discharges where no fibre could fire twice, the one with more of its potentials. */
  @Test
  void aDischargeIsThereOnce() {
    UnitTrack unit =
        new UnitTrack(
            new double[] {1000, 1010, 6000, 11_000, 11_020},
            new int[] {0, 0, 0, 0, 1},
            new double[] {0, 40});
    for (Presence[] presence : unit.presence) {
      Arrays.fill(presence, Presence.PRESENT);
    }
    unit.presence[0][1] = Presence.ABSENT;
    UnitTrack once = DischargeSieve.once(unit, 75);
    assertThat(once.reference).containsExactly(1010, 6000, 11_000, 11_020);
    assertThat(once.segment).containsExactly(0, 0, 0, 1);
    assertThat(DischargeSieve.once(once, 75)).isSameAs(once);
  }
}
