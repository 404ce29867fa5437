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

/**
 * Potentials of five to nine times the noise are followed through a whole recording. Single ones
 * hardly stand out; all of a discharge together do, and the mean of many discharges.
 */
@Tag("property")
class SmallInNoiseTest {

  private static final double DURATION_S = 10;

  @ParameterizedTest(name = "seed {0}: {1} of {2} uV and {3} of {4} uV, {5} us apart, noise {6} uV")
  @CsvSource({
    "41, SLOW, 260, BIPHASIC, 200, 1700, 38",
    "42, BIPHASIC, 230, SLOW, 190, -1500, 42",
    "43, SLOW, 280, SLOW, 220, 2600, 28",
    "44, BIPHASIC, 190, TRIPHASIC, 170, 1200, 38"
  })
  void areFoundInAllDischarges(
      long seed,
      String form,
      double sizeUv,
      String otherForm,
      double otherUv,
      double lagUs,
      double noiseUv)
      throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, noiseUv);
    double[] times = recording.firing();
    recording.add(named(form), sizeUv, times, 0, 15);
    recording.add(named(otherForm), otherUv, times, lagUs, 25);
    List<MotorUnitResult> units = Objects.requireNonNull(recording.analyse().motorUnits());
    assertThat(units).hasSize(1);
    assertThat(units.get(0).discharges())
        .isBetween((int) (0.97 * times.length), (int) (1.01 * times.length));
    List<PairResult> pairs = units.get(0).pairs();
    assertThat(pairs).hasSize(1);
    assertThat(Math.abs(Objects.requireNonNull(pairs.get(0).meanIntervalUs())))
        .isBetween(Math.abs(lagUs) - 150, Math.abs(lagUs) + 150);
    assertThat(pairs.get(0).presentSweeps()).isGreaterThan((int) (0.9 * times.length));
    assertThat(pairs.get(0).blockedSweeps()).isZero();
  }

  /** Noise alone fills no pause: a fifth of the discharges are missing, and stay so. */
  @ParameterizedTest(name = "seed {0}, {1} uV in {2} uV of noise")
  @CsvSource({"51, 200, 20", "52, 320, 20", "53, 600, 20"})
  void noiseFillsNoPause(long seed, double sizeUv, double noiseUv) throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, noiseUv);
    double[] times = recording.firing();
    int fired = times.length;
    for (int d = 20; d < times.length; d++) {
      if (d % 20 >= 16) {
        times[d] = Double.NaN;
        fired--;
      }
    }
    recording.add(Form.BIPHASIC, sizeUv, times, 0, 10);
    recording.add(Form.SLOW, sizeUv, times, 1900, 10);
    List<MotorUnitResult> units = Objects.requireNonNull(recording.analyse().motorUnits());
    assertThat(units).hasSize(1);
    assertThat(units.get(0).discharges()).isBetween((int) (0.97 * fired), fired);
    assertThat(units.get(0).pairs()).hasSize(1);
  }

  private static Form named(String name) {
    return switch (name) {
      case "BIPHASIC" -> Form.BIPHASIC;
      case "TRIPHASIC" -> Form.TRIPHASIC;
      default -> Form.SLOW;
    };
  }
}
