package org.lonefibre.analysis.potential;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * What potentials of one fibre can look like: how the samples of a shape vary together over a
 * family of fibres, needles and distances, through the filter of a signal.
 *
 * <ul>
 *   <li>The family was computed by the model of the needle in muscle and is carried as a resource;
 *       the range of its members is an engineering choice, and said there.
 *   <li>Each member stands at several arrivals, as the arrival of a shape is not exactly at its
 *       steepest point.
 *   <li>Sites of an examination pass the same filter, so the families of the last few filters are
 *       kept.
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class FibreFamily {

  private static final double STEP_US = 10;
  private static final double FARTHEST_SHIFT_US = 80;
  private static final double SHIFT_US = 20;
  private static final List<double[]> MEMBERS = read();

  private static final int MOST_KEPT = 8;
  private static final int IMPULSE_SAMPLES = 512;
  private static final Map<Kind, FibreFamily> KEPT = new LinkedHashMap<>(MOST_KEPT, 0.75f, true);

  private final double[][] products;

  /** Families of one kind are the same: what the filter makes of an impulse tells the filter. */
  private record Kind(double sampleUs, List<Double> response, int before, int after) {

    static Kind of(ConditionedSignal signal, int before, int after) {
      double[] impulse = new double[IMPULSE_SAMPLES];
      impulse[IMPULSE_SAMPLES / 2] = 1;
      List<Double> response = Arrays.stream(signal.passed(impulse)).boxed().toList();
      return new Kind(signal.timeBase().durationUs(1), response, before, after);
    }
  }

  /**
   * The family as the filter of a signal lets it pass.
   *
   * @param before samples of a shape before its arrival
   * @param after samples after it
   */
  static FibreFamily of(ConditionedSignal signal, int before, int after) {
    Kind kind = Kind.of(signal, before, after);
    synchronized (KEPT) {
      FibreFamily family = KEPT.computeIfAbsent(kind, k -> new FibreFamily(signal, before, after));
      if (KEPT.size() > MOST_KEPT) {
        KEPT.keySet().remove(KEPT.keySet().iterator().next());
      }
      return family;
    }
  }

  private FibreFamily(ConditionedSignal signal, int before, int after) {
    int length = before + after + 1;
    double sampleUs = signal.timeBase().durationUs(1);
    products = new double[length][length];
    int rows = 0;
    for (double[] member : MEMBERS) {
      double[] filtered = signal.passed(resampled(member, sampleUs));
      double size = size(filtered);
      double steepest = steepest(filtered);
      for (double shiftUs = -FARTHEST_SHIFT_US; shiftUs <= FARTHEST_SHIFT_US; shiftUs += SHIFT_US) {
        double[] row = new double[length];
        for (int k = 0; k < length; k++) {
          row[k] = at(filtered, steepest + shiftUs / sampleUs + k - before) / size;
        }
        add(row);
        rows++;
      }
    }
    for (int i = 0; i < length; i++) {
      for (int j = 0; j <= i; j++) {
        products[i][j] /= rows;
        products[j][i] = products[i][j];
      }
    }
  }

  /** Each member as the filter of a signal lets it pass, at its sampling rate. */
  static List<double[]> passedBy(ConditionedSignal signal) {
    double sampleUs = signal.timeBase().durationUs(1);
    return MEMBERS.stream().map(member -> signal.passed(resampled(member, sampleUs))).toList();
  }

  /**
   * Mean product of two samples over the family, each member with a maximum minus minimum of 1:
   * {@code [sample][sample]}, not to be changed.
   */
  double[][] products() {
    return products;
  }

  private void add(double[] row) {
    for (int i = 0; i < row.length; i++) {
      double[] to = products[i];
      double value = row[i];
      for (int j = 0; j <= i; j++) {
        to[j] += value * row[j];
      }
    }
  }

  private static double[] resampled(double[] member, double sampleUs) {
    double middle = (member.length - 1) / 2.0;
    int half = (int) (middle * STEP_US / sampleUs) - 2;
    double[] samples = new double[2 * half + 1];
    for (int k = 0; k < samples.length; k++) {
      samples[k] = at(member, middle + (k - half) * sampleUs / STEP_US);
    }
    return samples;
  }

  /** A value between samples, by the cubic through four of them; 0 outside. */
  static double at(double[] values, double place) {
    int i = (int) Math.floor(place);
    if (i < 1 || i > values.length - 3) {
      return 0;
    }
    double f = place - i;
    double a = values[i - 1];
    double b = values[i];
    double c = values[i + 1];
    double d = values[i + 2];
    return b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)));
  }

  private static double size(double[] values) {
    double low = values[0];
    double high = values[0];
    for (double value : values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return high - low;
  }

  static int steepest(double[] values) {
    int best = 1;
    for (int k = 1; k < values.length - 1; k++) {
      if (Math.abs(values[k + 1] - values[k - 1]) > Math.abs(values[best + 1] - values[best - 1])) {
        best = k;
      }
    }
    return best;
  }

  private static List<double[]> read() {
    try (InputStream in = FibreFamily.class.getResourceAsStream("fibre-family.csv")) {
      if (in == null) {
        throw new IllegalStateException("fibre-family.csv is missing from the program");
      }
      try (InputStreamReader text = new InputStreamReader(in, StandardCharsets.US_ASCII);
          CsvReader<NamedCsvRecord> rows =
              CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(text)) {
        return rows.stream().map(row -> numbers(row.getField("values"))).toList();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double[] numbers(String text) {
    return Arrays.stream(text.split(" ", -1)).mapToDouble(Double::parseDouble).toArray();
  }
}
