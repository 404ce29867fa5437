package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Objects;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

class OverlapDoubtTest {

  private static final double NOISE_UV = 6;

  /** Where another potential reaches beneath, the pair says so and its interval is wider. */
  @ParameterizedTest(name = "{0} us after, {1} uV beside {2} uV: in doubt {3}")
  @CsvSource({
    "620, 500, 1400, true",
    "-600, 450, 1200, true",
    "650, 900, 1100, true",
    "1500, 500, 1400, false",
    "-1300, 700, 700, false"
  })
  void whatOverlapsIsInDoubt(double lagUs, double sizeUv, double otherUv, boolean isInDoubt)
      throws IOException {
    DrawnRecording recording = new DrawnRecording(3, 9, NOISE_UV);
    double[] times = recording.firing();
    recording.add(Form.BIPHASIC, otherUv, times, 0, 6);
    recording.add(Form.BIPHASIC, sizeUv, times, lagUs, 25);
    PairResult pair =
        Objects.requireNonNull(recording.analyse().motorUnits()).get(0).pairs().get(0);
    double corrected = Objects.requireNonNull(pair.correctedJitterUs());
    double reach = Math.log(Objects.requireNonNull(pair.correctedJitterHighUs()) / corrected);
    if (isInDoubt) {
      assertThat(pair.findings())
          .anySatisfy(
              finding -> {
                assertThat(finding.code()).isEqualTo(FindingCode.OVERLAPPING_SHAPES);
                double error = finding.evidence().quantities().get(0).value() / 100;
                assertThat(finding.severity())
                    .isEqualTo(error > 0.05 ? Severity.CAUTION : Severity.NOTE);
                assertThat(error).isBetween(0.01, 0.3);
                assertThat(reach).isGreaterThan(1.96 * error);
              });
    } else {
      assertThat(pair.findings())
          .extracting(finding -> finding.code())
          .doesNotContain(FindingCode.OVERLAPPING_SHAPES);
    }
  }
}
