package org.lonefibre.signal.robust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class RobustStatisticsTest {

  /** SciPy 1.17.1 and NumPy 2.4.6; script beside the vectors. */
  @Test
  @Tag("crossCheck")
  void everyStatisticAgreesWithScipy() throws IOException {
    List<String> lines;
    try (InputStream in =
            Objects.requireNonNull(
                RobustStatisticsTest.class.getResourceAsStream("robust_vectors.csv"));
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      lines = reader.lines().filter(line -> !line.startsWith("#")).toList();
    }
    assertThat(lines).hasSize(6);
    for (String line : lines) {
      String[] columns = line.split(",", -1);
      double[] x = numbers(columns[0]);
      double[] expected = numbers(columns[1]);
      double[] actual = {
        RobustStatistics.median(x),
        RobustStatistics.medianAbsoluteDeviation(x),
        RobustStatistics.standardDeviation(x),
        RobustStatistics.quantile(x, 0.05),
        RobustStatistics.quantile(x, 0.37),
        RobustStatistics.quantile(x, 1.0),
        RobustStatistics.trimmedMean(x, 0.1)
      };
      for (int i = 0; i < actual.length; i++) {
        assertThat(actual[i]).isCloseTo(expected[i], within(1e-12 * (1 + Math.abs(expected[i]))));
      }
    }
  }

  @Test
  @Tag("property")
  void selectionFindsWhatSortingFindsOnAwkwardInput() {
    Random random = new Random(5);
    for (int n : new int[] {1, 2, 9, 50, 1000}) {
      double[] sorted = new double[n];
      double[] constant = new double[n];
      double[] sawtooth = new double[n];
      double[] ties = new double[n];
      for (int i = 0; i < n; i++) {
        sorted[i] = n - i;
        sawtooth[i] = i % 7;
        ties[i] = random.nextInt(3);
      }
      for (double[] values : List.of(sorted, constant, sawtooth, ties)) {
        double[] reference = values.clone();
        Arrays.sort(reference);
        for (int rank = 0; rank < n; rank += Math.max(1, n / 13)) {
          assertThat(RobustStatistics.rankInPlace(values.clone(), n, rank))
              .isEqualTo(reference[rank]);
        }
      }
    }
  }

  @Test
  @Tag("contract")
  void valuesThatAreNotNumbersAreRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> RobustStatistics.median(new double[] {1, Double.NaN}));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> RobustStatistics.median(new double[] {1, Double.POSITIVE_INFINITY}));
    assertThatIllegalArgumentException().isThrownBy(() -> RobustStatistics.median(new double[0]));
  }

  @Test
  @Tag("contract")
  void theArgumentIsLeftAsItWas() {
    double[] values = {3, 1, 2};
    RobustStatistics.median(values);
    RobustStatistics.quantile(values, 0.3);
    RobustStatistics.standardDeviation(values);
    assertThat(values).containsExactly(3, 1, 2);
  }

  private static double[] numbers(String text) {
    return Arrays.stream(text.split(";", -1)).mapToDouble(Double::parseDouble).toArray();
  }
}
