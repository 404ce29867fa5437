package org.lonefibre.app.analyse;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.LatencyEntry;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;

/**
 * Real evoked responses, sampled at 20 kHz, whose latencies others measured at the crossing of 0 mV
 * on the way up and at the peak (see the README beside the table). The steepest point, our arrival,
 * lies just before the crossing.
 */
@Tag("published")
class EvokedRecordingTest {

  private static final Path SHARED = Path.of("../../shared/data");
  private static final Path SAMPLES = SHARED.resolve("evoked-20khz/evoked_20kHz.csv");
  private static final Path TABLE = SHARED.resolve("reference/evoked_latency.csv");
  private static final int FIRST_PULSE = 2000;
  private static final int PULSE_SPACING = 2000;
  private static final int PULSES = 50;

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2})
  void everyLatencyIsFollowedAndIsTheOneThatOthersMeasured(int sweep) throws IOException {
    assumeTrue(Files.exists(SAMPLES), "skipped: the shared evoked recordings are absent");
    List<EndPlateResult> endPlates = stimulated(sweep).endPlates();
    assertThat(endPlates).hasSize(1);
    EndPlateResult only = endPlates.get(0);
    List<LatencyEntry> latencies = only.latencies();
    List<Double> crossings = crossings(sweep).subList(PULSES - latencies.size(), PULSES);
    assertThat(latencies).hasSize(PULSES - 2);
    assertThat(latencies).extracting(LatencyEntry::latencyUs).doesNotContainNull();
    assertThat(only.blockedSweeps() + only.obscuredSweeps()).isZero();
    double expectedMcdUs = 0;
    for (int i = 0; i < crossings.size(); i++) {
      Double latencyUs = latencies.get(i).latencyUs();
      assertThat(latencyUs).isCloseTo(crossings.get(i), within(100.0));
      expectedMcdUs += i == 0 ? 0 : Math.abs(crossings.get(i) - crossings.get(i - 1));
    }
    expectedMcdUs /= crossings.size() - 1;
    double meanUs = crossings.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    assertThat(only.meanLatencyUs()).isCloseTo(meanUs, within(100.0));
    assertThat(only.meanConsecutiveDifferenceUs()).isCloseTo(expectedMcdUs, withinPercentage(10));
    assertThat(only.findings()).extracting(Finding::code).contains(FindingCode.TREND);
  }

  private StimulationResult stimulated(int sweep) throws IOException {
    Path file = folder.resolve("evoked.csv");
    List<String> lines = new ArrayList<>(List.of("needle_mV,marker_V"));
    List<String> rows = Files.readAllLines(SAMPLES);
    for (int row = 0; row + 1 < rows.size(); row++) {
      int since = (row - FIRST_PULSE) % PULSE_SPACING;
      boolean pulse = since >= 0 && since < 20 && row < FIRST_PULSE + PULSES * PULSE_SPACING;
      lines.add(rows.get(row + 1).split(",")[1 + sweep] + (pulse ? ",1" : ",0"));
    }
    Files.write(file, lines);
    try (Recording recording =
        RecordingReaders.open(file, ReadOptions.defaults().withSamplingRateHz(20_000.0))) {
      SiteRequest request =
          new SiteRequest(
              "evoked.csv",
              "",
              recording.channels().get(0),
              recording.channels().get(1),
              List.of(),
              "site",
              0,
              Double.POSITIVE_INFINITY,
              Activation.STIMULATED);
      StimulationResult result =
          new SiteAnalyser(AnalysisSettings.defaultsFor("concentric-standard"))
              .analyse(recording, request)
              .stimulation();
      assertThat(result).isNotNull();
      return java.util.Objects.requireNonNull(result);
    }
  }

  private static List<Double> crossings(int sweep) throws IOException {
    List<Double> crossings = new ArrayList<>();
    for (String line : Files.readAllLines(TABLE)) {
      String[] cells = line.split(",");
      if (cells[0].equals(Integer.toString(sweep))) {
        crossings.add(Double.parseDouble(cells[4]));
      }
    }
    return crossings;
  }
}
