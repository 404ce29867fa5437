package org.lonefibre.report.csv;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.ReportReader;

/** Tables for machines: names that stay, every digit, and the same numbers as on paper. */
@Tag("contract")
class TablesTest {

  /** The numbers of a pair and an end-plate under the names of analysis.json, in its order. */
  private static final List<String> MEASURES =
      List.of(
          "status",
          "sweeps",
          "presentSweeps",
          "blockedSweeps",
          "triggerAbsentSweeps",
          "obscuredSweeps",
          "excludedSweeps",
          "differences",
          "blockingPercent",
          "meanIntervalUs",
          "meanLatencyUs",
          "meanConsecutiveDifferenceUs",
          "meanSortedDifferenceUs",
          "jitterUs",
          "jitterStatistic",
          "timingFloorUs",
          "correctedJitterUs",
          "correctedJitterLowUs",
          "correctedJitterHighUs",
          "meanInterDischargeIntervalMs");

  private static Stream<Examination> samples() {
    return Stream.of(ExaminationSample.voluntary(), ExaminationSample.stimulated());
  }

  @Test
  void theColumnsBearTheNamesOfTheJson() {
    List<String> signals = header(SignalsCsv.of(ExaminationSample.voluntary()));
    assertThat(signals)
        .doesNotHaveDuplicates()
        .startsWith("subject", "ageYears", "visitDate", "study", "muscle", "side", "activation")
        .contains("file", "sha256", "site", "channel", "startS", "endS", "samplingRateHz")
        .contains("noiseUv", "motorUnit", "id", "triggerPotential", "pairedPotential")
        .containsSubsequence(MEASURES);
    assertThat(header(IntervalsCsv.of(ExaminationSample.voluntary())))
        .containsExactly(
            "subject",
            "study",
            "muscle",
            "side",
            "file",
            "site",
            "id",
            "sweep",
            "timeS",
            "intervalUs",
            "latencyUs",
            "errorUs",
            "state",
            "provenance");
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theTableRoundsToWhatThePaperShows(Examination examination) {
    List<NamedCsvRecord> lines = ReportReader.lines(SignalsCsv.of(examination));
    List<List<String>> rows =
        ReportReader.signalRows(ReportReader.tree(ReportReader.html(examination)));
    assertThat(lines).hasSameSizeAs(rows).isNotEmpty();
    for (int i = 0; i < lines.size(); i++) {
      NamedCsvRecord line = lines.get(i);
      List<String> row = rows.get(i);
      String corrected =
          line.getField("correctedJitterUs").isEmpty()
              ? "–"
              : rounded(line, "correctedJitterUs", 1)
                  + " ("
                  + rounded(line, "correctedJitterLowUs", 1)
                  + "–"
                  + rounded(line, "correctedJitterHighUs", 1)
                  + ")";
      boolean pair = line.getField("kind").equals("pair");
      assertThat(row.subList(2, 10))
          .containsExactly(
              rounded(line, "jitterUs", 1),
              corrected,
              rounded(line, "meanConsecutiveDifferenceUs", 1),
              rounded(line, "meanSortedDifferenceUs", 1),
              rounded(line, "timingFloorUs", 1),
              rounded(line, pair ? "meanIntervalUs" : "meanLatencyUs", 0),
              line.getField("presentSweeps") + " / " + line.getField("sweeps"),
              line.getField("differences"));
    }
  }

  @Test
  void whatCannotBeMeasuredHasEmptyCellsAndKeepsItsCounts() {
    List<NamedCsvRecord> unmeasurable =
        ReportReader.lines(SignalsCsv.of(ExaminationSample.voluntary())).stream()
            .filter(line -> line.getField("status").equals("unmeasurable"))
            .toList();
    assertThat(unmeasurable).hasSize(1);
    NamedCsvRecord line = unmeasurable.get(0);
    for (String column : MEASURES) {
      if (column.endsWith("Us")) {
        assertThat(line.getField(column)).as(column).isEmpty();
      }
    }
    assertThat(line.getField("aboveLimit")).isEmpty();
    assertThat(line.getField("sweeps")).isEqualTo("24");
    assertThat(line.getField("findings")).isEqualTo("too-few-differences");
  }

  @Test
  void everySweepHasALineWithAValueOnlyIfPresent() {
    Examination examination = ExaminationSample.voluntary();
    List<NamedCsvRecord> sweeps = ReportReader.lines(IntervalsCsv.of(examination));
    int expected =
        ReportReader.lines(SignalsCsv.of(examination)).stream()
            .mapToInt(line -> Integer.parseInt(line.getField("sweeps")))
            .sum();
    assertThat(sweeps).hasSize(expected);
    for (NamedCsvRecord sweep : sweeps) {
      assertThat(sweep.getField("intervalUs").isEmpty())
          .isEqualTo(!sweep.getField("state").equals("present"));
    }
  }

  @Test
  void everyLineOfInventedDataSaysSo() {
    assertThat(ReportReader.lines(SignalsCsv.of(ExaminationSample.voluntary())))
        .isNotEmpty()
        .allSatisfy(line -> assertThat(line.getField("provenance")).isEqualTo("DEMO"));
    assertThat(ReportReader.lines(IntervalsCsv.of(ExaminationSample.voluntary())))
        .isNotEmpty()
        .allSatisfy(line -> assertThat(line.getField("provenance")).isEqualTo("DEMO"));
    assertThat(ReportReader.lines(SignalsCsv.of(ExaminationSample.stimulated())))
        .isNotEmpty()
        .allSatisfy(line -> assertThat(line.getField("provenance")).isEqualTo("examination"));
  }

  @Test
  void noCellStartsAFormula() {
    for (NamedCsvRecord line : ReportReader.lines(SignalsCsv.of(ExaminationSample.hostile()))) {
      assertThat(line.getField("channel")).isEqualTo("'=cmd|' /C calc'!A0");
      for (String field : line.getFields()) {
        assertThat(field).doesNotMatch("(?s)^[=+@\t\r].*").doesNotContain("\u0007");
      }
    }
  }

  private static String rounded(NamedCsvRecord line, String column, int places) {
    String field = line.getField(column);
    return field.isEmpty()
        ? "–"
        : new BigDecimal(field).setScale(places, RoundingMode.HALF_UP).toPlainString();
  }

  private static List<String> header(String csv) {
    return ReportReader.lines(csv).get(0).getHeader();
  }
}
