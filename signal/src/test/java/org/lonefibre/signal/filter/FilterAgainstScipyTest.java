package org.lonefibre.signal.filter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestFactory;

/** SciPy 1.17.1, vectors and their script beside this test's resources. */
@Tag("crossCheck")
class FilterAgainstScipyTest {

  private static final double RELATIVE = 1e-9;

  @TestFactory
  List<DynamicTest> designAndBothRunsAgreeWithScipy() throws IOException {
    List<DynamicTest> tests = new ArrayList<>();
    vectors().forEach((name, of) -> tests.add(dynamicTest(name, () -> compare(name, of))));
    assertThat(tests).hasSize(12);
    return tests;
  }

  private static void compare(String name, Map<String, double[]> of) {
    double rateHz = value(of, "rate")[0];
    SecondOrderSections filter = filter(name, rateHz);
    double[] expected = value(of, "sos");
    assertThat(filter.sectionCount()).isEqualTo(expected.length / 6);
    for (int s = 0; s < filter.sectionCount(); s++) {
      double[] section = filter.section(s);
      double[] row = Arrays.copyOfRange(expected, 6 * s, 6 * s + 6);
      // The split of the gain over the sections of one filter is free; the product is compared by
      // the runs. Poles are not free where there is one section a filter.
      if (!name.equals("order-3")) {
        assertClose(section, new double[] {row[0], row[1], row[2], row[4], row[5]});
      }
    }
    double[] input = value(of, "input");
    double[] causal = input.clone();
    FilterRun run = new FilterRun(filter);
    run.settle(input[0]);
    run.forward(causal, 0, 7);
    run.forward(causal, 7, causal.length - 7);
    assertClose(causal, value(of, "causal"));
    assertClose(new ZeroPhase(filter).filter(input), value(of, "zerophase"));
  }

  private static SecondOrderSections filter(String name, double rateHz) {
    if (name.equals("notch")) {
      return SecondOrderSections.notch(50, 2, rateHz);
    }
    int order = name.equals("order-1") ? 1 : name.equals("order-3") ? 3 : 2;
    double highPassHz = name.startsWith("concentric") ? 1000 : 500;
    double lowPassHz = Math.min(10_000, 0.45 * rateHz);
    return SecondOrderSections.highPass(order, highPassHz, rateHz)
        .then(SecondOrderSections.lowPass(order, lowPassHz, rateHz));
  }

  private static void assertClose(double[] actual, double[] expected) {
    assertThat(actual).hasSameSizeAs(expected);
    double size = 0;
    double difference = 0;
    for (int i = 0; i < expected.length; i++) {
      size = Math.max(size, Math.abs(expected[i]));
      difference = Math.max(difference, Math.abs(expected[i] - actual[i]));
    }
    assertThat(difference / size).isLessThan(RELATIVE);
  }

  private static double[] value(Map<String, double[]> of, String kind) {
    return Objects.requireNonNull(of.get(kind), kind);
  }

  private static Map<String, Map<String, double[]>> vectors() throws IOException {
    Map<String, Map<String, double[]>> cases = new LinkedHashMap<>();
    try (InputStream in =
            Objects.requireNonNull(
                FilterAgainstScipyTest.class.getResourceAsStream("filter_vectors.csv"));
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      lines
          .lines()
          .filter(line -> !line.startsWith("#"))
          .forEach(
              line -> {
                String[] columns = line.split(",", -1);
                double[] values =
                    Arrays.stream(columns[2].split(";", -1))
                        .mapToDouble(Double::parseDouble)
                        .toArray();
                cases.computeIfAbsent(columns[0], name -> new HashMap<>()).put(columns[1], values);
              });
    }
    return cases;
  }
}
