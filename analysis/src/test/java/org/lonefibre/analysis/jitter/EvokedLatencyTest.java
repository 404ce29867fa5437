package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** Latencies of real evoked responses that drift: a trend, not two clusters. */
@Tag("published")
class EvokedLatencyTest {

  private static final Path TABLE = Path.of("../../shared/data/reference/evoked_latency.csv");

  @ParameterizedTest
  @CsvSource({
    "0, latency_peak_us", "1, latency_peak_us", "2, latency_peak_us",
    "0, latency_upstroke0mV_us", "1, latency_upstroke0mV_us", "2, latency_upstroke0mV_us"
  })
  void driftingLatenciesAreATrendAndNotTwoClusters(String sweep, String column) throws IOException {
    assumeTrue(Files.exists(TABLE), "skipped: the shared table of evoked latencies is absent");
    Series series = new Series();
    try (CsvReader<NamedCsvRecord> rows = CsvReader.builder().ofNamedCsvRecord(TABLE)) {
      rows.stream()
          .filter(row -> row.getField("sweep").equals(sweep))
          .forEach(row -> series.present(Double.parseDouble(row.getField(column))));
    }
    List<FindingCode> codes =
        Series.measured(series.latencies(0)).findings().stream().map(Finding::code).toList();
    assertThat(codes).containsExactly(FindingCode.TREND, FindingCode.FEW_DIFFERENCES);
  }
}
