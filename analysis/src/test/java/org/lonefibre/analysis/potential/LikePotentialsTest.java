package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;

/** Two potentials of one unit that are alike are a pair, whichever of them is taken first. */
@Tag("property")
class LikePotentialsTest {

  private static final double DURATION_S = 9;
  private static final double FIRST_UV = 1480;

  @ParameterizedTest(name = "seed {0}: {1} us apart, the second of {2} uV")
  @CsvSource({
    "2, 3500, 1300",
    "2, 3500, 1700",
    "5, 3500, 1300",
    "5, 3500, 1700",
    "3, 1700, 1450",
    "4, 900, 1450"
  })
  void areAPair(long seed, double lagUs, double secondUv) throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, 12);
    double[] times = recording.firing();
    recording.add(Form.BIPHASIC, FIRST_UV, times, 0, 25);
    recording.add(Form.BIPHASIC, secondUv, times, lagUs, 40);
    List<MotorUnitResult> units = Objects.requireNonNull(recording.analyse().motorUnits());
    assertThat(units).hasSize(1);
    List<PairResult> pairs = units.get(0).pairs();
    assertThat(pairs).hasSize(1);
    assertThat(pairs.get(0).presentSweeps()).isGreaterThan((int) (0.97 * times.length));
    assertThat(Math.abs(Objects.requireNonNull(pairs.get(0).meanIntervalUs())))
        .isBetween(lagUs - 30, lagUs + 30);
  }
}
