package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.SweepEntry;

/**
 * A potential that for once comes far off its usual place stays measured where it is plainly
 * itself, though another unit fires as well: without the tails of jitter the jitter is too small.
 */
@Tag("property")
class FarArrivalTest {

  private static final int ODD = 40;
  private static final double LAG_US = 1900;

  @ParameterizedTest(name = "{0} us late")
  @ValueSource(doubles = {170, -190})
  void staysMeasured(double lateUs) throws IOException {
    DrawnRecording recording = new DrawnRecording(5, 9, 6);
    double[] other = recording.firing();
    recording.add(Form.TRIPHASIC, 900, other, 0, 5);
    double[] times = recording.firing();
    recording.add(Form.BIPHASIC, 600, times, 0, 5);
    double[] usual = times.clone();
    usual[ODD] = Double.NaN;
    recording.add(Form.BIPHASIC, 420, usual, LAG_US, 20);
    recording.add(Form.BIPHASIC, 420, new double[] {times[ODD]}, LAG_US + lateUs, 0);

    List<PairResult> pairs =
        Objects.requireNonNull(recording.analyse().motorUnits()).stream()
            .flatMap(unit -> unit.pairs().stream())
            .toList();
    assertThat(pairs).hasSize(1);
    SweepEntry sweep =
        pairs.get(0).intervals().stream()
            .filter(entry -> Math.abs(entry.timeS() - times[ODD]) < 0.005)
            .findFirst()
            .orElseThrow();
    assertThat(sweep.state()).isEqualTo(SweepState.PRESENT);
    assertThat(Math.abs(Objects.requireNonNull(sweep.intervalUs())))
        .isBetween(LAG_US + lateUs - 25, LAG_US + lateUs + 25);
  }
}
