package org.lonefibre.analysis.grading;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.discharge.DischargeFinder;
import org.lonefibre.analysis.potential.DrawnRecording;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.potential.PotentialTracker;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.analysis.settings.AnalysisSettings;

class AlignedSweepsTest {

  /**
   * Of three potentials the last is blocked in the first sweep: how it widens is known all the
   * same.
   */
  @Test
  void aNeighbourBlockedInTheFirstSweepWidensInLaterOnes() throws IOException {
    DrawnRecording recording = new DrawnRecording(7, 5, 4);
    double[] fired = recording.firing();
    recording.add(Form.BIPHASIC, 900, fired, 0, 10);
    recording.add(Form.BIPHASIC, 700, fired, 1500, 15);
    double[] late = fired.clone();
    late[0] = Double.NaN;
    late[9] = Double.NaN;
    recording.add(Form.TRIPHASIC, 600, late, 3000, 15);
    AnalysisSettings settings = AnalysisSettings.defaultsFor("single-fibre");
    ConditionedSignal signal =
        new Conditioner(settings.conditioning()).condition(recording, recording.channels().get(0));
    List<TrackedUnit> units =
        new PotentialTracker(settings.potential())
            .track(signal, new DischargeFinder(settings.discharge()).find(signal));
    assertThat(units).hasSize(1);
    List<TrackedPotential> potentials =
        units.get(0).potentials().stream()
            .sorted(Comparator.comparingDouble(TrackedPotential::lagSamples))
            .toList();
    assertThat(potentials).hasSize(3);
    assertThat(potentials.get(2).presence(0)).isEqualTo(Presence.ABSENT);

    AlignedSweeps sweeps =
        new AlignedSweeps(signal, units, units.get(0), potentials.get(1), 1000, 1800);

    assertThat(sweeps.discharge).contains(0);
    assertThat(sweeps.widenings).hasSize(2);
  }
}
