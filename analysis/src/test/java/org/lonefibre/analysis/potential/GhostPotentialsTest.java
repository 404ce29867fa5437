package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.potential.DrawnRecording.Form;

class GhostPotentialsTest {

  private static final double NOISE_UV = 12;

  /** One fibre, taken for a large potential and a small one beside it. */
  @Test
  void aPotentialThatExplainsNothingIsLeftOut() throws IOException {
    DrawnRecording recording = new DrawnRecording(2, 5, NOISE_UV);
    double[] fired = recording.firing();
    recording.add(Form.BIPHASIC, 700, fired, 0, 20);
    recording.add(Form.TRIPHASIC, 350, fired, 1500, 20);
    KnownUnits known = new KnownUnits(recording);
    UnitTrack unit = known.unit(fired, 0, 60, 1500);

    UnitTrack kept = ghosts(known).without(unit, 0);

    assertThat(kept.potentials).isEqualTo(2);
    assertThat(known.signal.timeBase().durationUs(kept.lag[1] - kept.lag[0]))
        .isBetween(1400.0, 1600.0);
  }

  /** A second fibre of a third of the size that moves is there. */
  @Test
  void aSmallFibreBesideALargeOneStays() throws IOException {
    DrawnRecording recording = new DrawnRecording(2, 5, NOISE_UV);
    double[] fired = recording.firing();
    recording.add(Form.BIPHASIC, 700, fired, 0, 20);
    recording.add(Form.BIPHASIC, 230, fired, 400, 30);
    KnownUnits known = new KnownUnits(recording);
    UnitTrack unit = known.unit(fired, 0, 400);

    assertThat(ghosts(known).without(unit, 0)).isSameAs(unit);
  }

  private static GhostPotentials ghosts(KnownUnits known) {
    known.site.note(List.of());
    return new GhostPotentials(
        known.signal.timeBase(),
        new UnitLeavings(known.signal, known.site, known.windows),
        known.workers);
  }
}
