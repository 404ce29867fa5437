package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;

/** A small potential that now and then comes to lie in a large one of its unit. */
@Tag("property")
class HiddenPotentialsTest {

  private static final double DURATION_S = 12;
  private static final double NOISE_UV = 13;
  private static final double LARGE_UV = 1100;

  /** What lies in the large one is not called absent, nor does it take its movement from there. */
  @ParameterizedTest(name = "seed {0}: {1} uV, {2} us later, moving by {3} us")
  @CsvSource({"1, 230, 300, 75", "2, 230, 300, 75", "3, 180, 300, 80"})
  void areNotBlocked(long seed, double smallUv, double laterUs, double spreadUs)
      throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, NOISE_UV);
    double[] times = recording.firing();
    recording.add(Form.BIPHASIC, LARGE_UV, times, 0, 0);
    recording.add(Form.TRIPHASIC, smallUv, times, laterUs, spreadUs);
    PairResult pair = onlyPair(recording);
    assertThat(pair.blockedSweeps()).isZero();
    assertThat(pair.presentSweeps()).isGreaterThan((int) (0.9 * times.length));
    // Successive differences of independent arrivals are 1.128 deviations in the mean.
    assertThat(Objects.requireNonNull(pair.correctedJitterUs()))
        .isBetween(0.8 * 1.128 * spreadUs, 1.2 * 1.128 * spreadUs);
  }

  /** Where it is blocked, the size of the large one makes no room for it. */
  @ParameterizedTest(name = "seed {0}: {1} uV, {2} us later")
  @CsvSource({"1, 100, 430", "2, 100, 430", "3, 110, 480", "4, 110, 480", "5, 90, 430"})
  void areNotPresentWhereTheyAreBlocked(long seed, double smallUv, double laterUs)
      throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, DURATION_S, NOISE_UV);
    double[] times = recording.firing();
    double[] blocked =
        IntStream.range(0, times.length)
            .filter(d -> d % 5 == 1 || d % 5 == 4)
            .mapToDouble(d -> times[d])
            .toArray();
    recording.add(Form.BIPHASIC, LARGE_UV, times, 0, 0);
    recording.add(Form.TRIPHASIC, smallUv, without(times, blocked), laterUs, 50);
    PairResult pair = onlyPair(recording);
    assertThat(pair.intervals())
        .filteredOn(sweep -> sweep.state() == SweepState.PRESENT)
        .noneMatch(
            sweep -> Arrays.stream(blocked).anyMatch(t -> Math.abs(t - sweep.timeS()) < 0.001));
    assertThat(pair.presentSweeps()).isGreaterThan((int) (0.5 * times.length));
  }

  private static PairResult onlyPair(DrawnRecording recording) throws IOException {
    List<MotorUnitResult> units = Objects.requireNonNull(recording.analyse().motorUnits());
    assertThat(units).hasSize(1);
    assertThat(units.get(0).pairs()).hasSize(1);
    return units.get(0).pairs().get(0);
  }

  private static double[] without(double[] times, double[] blocked) {
    return Arrays.stream(times).filter(time -> Arrays.binarySearch(blocked, time) < 0).toArray();
  }
}
