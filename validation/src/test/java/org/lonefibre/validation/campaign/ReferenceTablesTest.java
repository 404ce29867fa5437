package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.signal.random.RandomStream;

/** Our physics and our timing beside the tables of bound and bias; their source stands in them. */
@Tag("published")
class ReferenceTablesTest {

  private static final double NEAR_MM = 0.05;

  /** In noise of one spectrum the bound goes as one over SNR, in the table's two decimals. */
  @Test
  void boundOfTheTableGoesWithNoise() {
    for (NamedCsvRecord row : rows("arrival-time-bound-computed.csv")) {
      double snr = number(row, "snr_pp_over_rms");
      double atTen =
          rows("arrival-time-bound-computed.csv").stream()
              .filter(r -> r.getField("sampling_kHz").equals(row.getField("sampling_kHz")))
              .mapToDouble(r -> number(r, "bound_us"))
              .max()
              .orElseThrow();
      assertThat(number(row, "bound_us")).isCloseTo(10 * atTen / snr, within(0.006 + 0.05 / snr));
    }
  }

  /** The bound by the formula, for a near potential of either model, is the table's. */
  @ParameterizedTest
  @CsvSource({"CUBIC_POINT, 20", "CUBIC_POINT, 50", "QUARTIC_SURFACE, 20", "QUARTIC_SURFACE, 50"})
  void boundByTheFormulaIsThatOfTheTable(ShapeFamily family, int rateKHz) {
    BandShape shape = new BandShape(family, NEAR_MM, 1000.0 / rateKHz);
    double interval = ArrivalBound.intervalSamples(shape.raw, 1, 1500, w -> 1);
    double oneUs = interval / Math.sqrt(2) * shape.stepUs;
    double timesSnr = oneUs * shape.peakToPeak() / shape.noise();
    for (NamedCsvRecord row : rows("arrival-time-bound-computed.csv")) {
      if (row.getField("sampling_kHz").equals(Integer.toString(rateKHz))) {
        double expected = number(row, "bound_us");
        assertThat(timesSnr / number(row, "snr_pp_over_rms"))
            .as("%s at %d kHz, SNR %s", family, rateKHz, row.getField("snr_pp_over_rms"))
            .isCloseTo(expected, within(0.1 * expected + 0.005));
      }
    }
  }

  /**
   * The bias of template timing beside the table's, up to half the size. At equal size which of the
   * two fibres is followed is left to chance and to the first template: not compared.
   */
  @Test
  void biasOfTemplateTimingIsThatOfTheTable() {
    ContaminationTrial trial =
        new ContaminationTrial(new BandShape(ShapeFamily.CUBIC_POINT, 0.1, 10));
    int compared = 0;
    for (NamedCsvRecord row : rows("contamination-bias-computed.csv")) {
      double relative = number(row, "relative_amplitude");
      if (relative > 0.5) {
        continue;
      }
      compared++;
      double ratio =
          trial.ratio(
              number(row, "own_mcd_us"),
              number(row, "contaminant_mcd_us"),
              relative,
              number(row, "delay_us"),
              RandomStream.of(1).child(row.toString()));
      assertThat(ratio)
          .as("%s", row.getFields())
          .isCloseTo(number(row, "ratio_template"), within(relative > 0.25 ? 0.15 : 0.06));
    }
    assertThat(compared).isEqualTo(75);
  }

  private static double number(NamedCsvRecord row, String field) {
    return Double.parseDouble(row.getField(field));
  }

  private static List<NamedCsvRecord> rows(String name) {
    try (InputStreamReader text =
            new InputStreamReader(
                Objects.requireNonNull(ReferenceTablesTest.class.getResourceAsStream(name)),
                StandardCharsets.UTF_8);
        CsvReader<NamedCsvRecord> rows =
            CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(text)) {
      return rows.stream().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
