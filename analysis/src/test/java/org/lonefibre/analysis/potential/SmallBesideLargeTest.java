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
import org.lonefibre.analysis.study.StimulationResult;

/**
 * A small potential near a large one of its unit is followed by itself. In the mean it looks like a
 * part of the large one; only its movement tells.
 */
@Tag("property")
class SmallBesideLargeTest {

  private static final double DURATION_S = 9;
  private static final double MOVES_US = 25;

  @ParameterizedTest(name = "seed {0}: {1} of {2} uV, {4} us after one of {3} uV, noise {5} uV")
  @CsvSource({
    "1, BIPHASIC, 260, 700, -400, 20",
    "2, BIPHASIC, 260, 1000, 430, 24",
    "3, TRIPHASIC, 240, 2000, 400, 6",
    "4, TRIPHASIC, 260, 1000, 430, 24",
    "5, BIPHASIC, 240, 2000, -450, 6"
  })
  void isFound(long seed, String form, double sizeUv, double largeUv, double lagUs, double noiseUv)
      throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, noiseUv);
    double[] times = recording.firing();
    double[] large = recording.add(Form.BIPHASIC, largeUv, times, 0, 6);
    Form small = form.equals("BIPHASIC") ? Form.BIPHASIC : Form.TRIPHASIC;
    double[] arrivals = recording.add(small, sizeUv, times, lagUs, MOVES_US);
    List<MotorUnitResult> units = recording.analyse().motorUnits();
    assertThat(units).hasSize(1);
    List<PairResult> pairs = units.get(0).pairs();
    assertThat(pairs).as("pairs of one large and one small potential").hasSize(1);
    assertThat(pairs.get(0).presentSweeps()).isGreaterThan((int) (0.95 * times.length));
    double real = jitterUs(large, arrivals);
    assertThat(pairs.get(0).correctedJitterUs()).isBetween(0.7 * real, 1.3 * real);
  }

  /** After a stimulus as well: {1} uV, {3} us after one of {2} uV, whose latency is 4 ms. */
  @ParameterizedTest(name = "seed {0}: {1} and {2} uV, {3} us apart")
  @CsvSource({"21, 280, 1600, 480", "22, 400, 1400, -450", "23, 280, 1600, 420"})
  void isFoundAfterStimuli(long seed, double sizeUv, double largeUv, double lagUs)
      throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, 6);
    double[] stimuli = recording.firing();
    recording.add(Form.ARTEFACT, 4000, stimuli, 0, 0);
    recording.add(Form.BIPHASIC, largeUv, stimuli, 4000, 15);
    recording.add(Form.BIPHASIC, sizeUv, stimuli, 4000 + lagUs, MOVES_US);
    StimulationResult result = Objects.requireNonNull(recording.analyse(stimuli).stimulation());
    assertThat(result.endPlates()).hasSize(2);
  }

  /** An artefact moves against the response, and is no response. */
  @ParameterizedTest(name = "seed {0}, latency {1} us")
  @CsvSource({"31, 1700", "32, 2500", "33, 4000"})
  void anArtefactIsNone(long seed, double latencyUs) throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, 6);
    double[] stimuli = recording.firing();
    recording.add(Form.ARTEFACT, 6000, stimuli, 0, 0);
    recording.add(Form.TRIPHASIC, 1600, stimuli, latencyUs, 40);
    StimulationResult result = Objects.requireNonNull(recording.analyse(stimuli).stimulation());
    assertThat(result.endPlates()).hasSize(1);
  }

  /** What is left of a large potential whose size varies is none of its own. */
  @ParameterizedTest(name = "seed {0}")
  @CsvSource({"11, BIPHASIC", "12, TRIPHASIC"})
  void isNotInvented(long seed, String form) throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, 6);
    Form one = form.equals("BIPHASIC") ? Form.BIPHASIC : Form.TRIPHASIC;
    double[] times = recording.firing();
    for (double time : times) {
      double size = 2000 * (1 + 0.1 * Math.sin(1e4 * time));
      recording.add(one, size, new double[] {time}, 0, 20);
    }
    List<MotorUnitResult> units = recording.analyse().motorUnits();
    assertThat(units).hasSize(1);
    assertThat(units.get(0).pairs()).isEmpty();
  }

  private static double jitterUs(double[] from, double[] to) {
    double sum = 0;
    for (int d = 1; d < from.length; d++) {
      sum += Math.abs(to[d] - from[d] - to[d - 1] + from[d - 1]);
    }
    return 1e6 * sum / (from.length - 1);
  }
}
