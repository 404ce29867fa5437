package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The eight interval series with exact answers; their origin stands in the head of the files. */
@Tag("published")
class IntervalVectorsTest {

  private static final JitterSettings HOWEVER_SHORT =
      JitterSettings.defaults().withMinimumDifferences(1);

  static Stream<NamedCsvRecord> expected() {
    return read("interval-vectors-expected.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("expected")
  void everySeriesGivesItsExactAnswer(NamedCsvRecord row) {
    JitterMeasurement found = Series.measured(series(row.getField("vector")), HOWEVER_SHORT);

    assertThat(found.counts().sweeps()).isEqualTo(Integer.parseInt(row.getField("n_sweeps")));
    assertThat(found.counts().presentSweeps())
        .isEqualTo(Integer.parseInt(row.getField("n_responses")));
    assertThat(found.counts().blockingPercent())
        .isCloseTo(Double.parseDouble(row.getField("block_percent")), within(1e-9));
    assertThat(found.counts().differences())
        .isEqualTo(Integer.parseInt(row.getField("n_differences_split")));
    assertThat(found.meanConsecutiveDifferenceUs())
        .isCloseTo(Double.parseDouble(row.getField("mcd_split_at_block_us")), within(6e-5));
    assertThat(found.meanSortedDifferenceUs())
        .isCloseTo(Double.parseDouble(row.getField("msd_us")), within(6e-5));
    assertThat(found.meanIntervalUs())
        .isCloseTo(Double.parseDouble(row.getField("mean_ipi_us")), within(6e-4));
  }

  @Test
  void lowSortedDifferenceAloneIsNoSplitFibre() {
    JitterMeasurement found = Series.measured(series("C_alternating"), HOWEVER_SHORT);
    assertThat(found.meanSortedDifferenceUs()).isLessThan(5);
    assertThat(codes(found)).doesNotContain(FindingCode.LOW_JITTER);
  }

  @Test
  void constantIntervalsAreLowJitter() {
    assertThat(codes(Series.measured(series("B_constant"), HOWEVER_SHORT)))
        .contains(FindingCode.LOW_JITTER);
  }

  @Test
  void dependenceOnTheRateMakesTheSortedDifferenceTheJitter() {
    JitterMeasurement found = Series.measured(series("E_idi_dependent"));
    assertThat(found.statistic()).isEqualTo(JitterStatistic.MEAN_SORTED_DIFFERENCE);
    assertThat(found.jitterUs()).isCloseTo(5.0102, within(6e-5));
    assertThat(codes(found))
        .contains(FindingCode.RATE_DEPENDENCE)
        .doesNotContain(FindingCode.TWO_CLUSTERS, FindingCode.LOW_JITTER);
    assertThat(found.isExcluded()).isFalse();
  }

  @Test
  void gaussianSeriesHasNothingToReport() {
    assertThat(Series.measured(series("F_gaussian_sd20")).findings()).isEmpty();
  }

  @Test
  void flipFlopIsTwoClustersAndLeftOutOfTheStatistics() {
    JitterMeasurement found = Series.measured(series("G_flipflop"));
    assertThat(codes(found)).startsWith(FindingCode.TWO_CLUSTERS);
    assertThat(found.isExcluded()).isTrue();
    assertThat(found.findings().get(0).text())
        .contains("500 us (25 sweeps) and 583 us (25 sweeps), 9 times");
  }

  @Test
  void shortSeriesAreUnmeasurableUnlessTold() {
    JitterResult found =
        new JitterEstimator(JitterSettings.defaults()).measure(series("H_blocked"));
    assertThat(found)
        .isInstanceOfSatisfying(
            UnmeasurableJitter.class,
            none -> {
              assertThat(none.reason().code()).isEqualTo(FindingCode.TOO_FEW_DIFFERENCES);
              assertThat(none.counts().blockedSweeps()).isEqualTo(3);
              assertThat(none.counts().differences()).isEqualTo(4);
            });
  }

  private static List<FindingCode> codes(JitterResult result) {
    return result.findings().stream().map(Finding::code).toList();
  }

  private static IntervalSeries series(String vector) {
    Series series = new Series();
    for (NamedCsvRecord row : read("interval-vectors-series.csv")) {
      if (!row.getField("vector").equals(vector)) {
        continue;
      }
      double preceding = Double.parseDouble(row.getField("preceding_idi_ms"));
      if (row.getField("blocked").equals("1")) {
        series.absent(SweepState.BLOCKED);
      } else {
        series.present(Double.parseDouble(row.getField("ipi_us")), preceding);
      }
    }
    return series.intervals();
  }

  private static List<NamedCsvRecord> read(String name) {
    try (InputStream in =
            Objects.requireNonNull(IntervalVectorsTest.class.getResourceAsStream(name), name);
        InputStreamReader text = new InputStreamReader(in, StandardCharsets.UTF_8);
        CsvReader<NamedCsvRecord> rows =
            CsvReader.builder()
                .commentStrategy(de.siegmar.fastcsv.reader.CommentStrategy.SKIP)
                .ofNamedCsvRecord(text)) {
      return rows.stream().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
