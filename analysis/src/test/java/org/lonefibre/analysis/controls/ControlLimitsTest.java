package org.lonefibre.analysis.controls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.reference.TableFault;
import org.lonefibre.analysis.study.Activation;

class ControlLimitsTest {

  private static final String HEAD =
      "subject,age_years,muscle,needle,activation,signal,jitter_us\n";

  /**
   * Control group of 60 and its limits by SciPy 1.17.1 and NumPy 2.4.6; script and command in
   * {@code control-limits.py} beside the values. Bootstrap ends within a quarter of the interval:
   * both are drawn, with other seeds, and the ends of a percentile of 60 are coarse.
   */
  @Tag("crossCheck")
  @Test
  void limitsOfSixtyControlsAgreeWithAnIndependentLibrary() throws IOException {
    ControlGroup group =
        ControlLimits.of(ControlFile.of("g.csv", text("control-group.csv"))).get(0);
    assertThat(group.subjects()).isEqualTo(60);
    int compared = 0;
    for (String line : text("control-limits-expected.csv").lines().skip(1).toList()) {
      String[] cells = line.split(",", -1);
      if (cells[1].equals("LINE")) {
        continue;
      }
      OwnLimit limit = group.limit(cells[0], ControlMethod.valueOf(cells[1]));
      double low = Double.parseDouble(cells[3]);
      double high = Double.parseDouble(cells[4]);
      assertThat(limit.valueUs()).as(line).isCloseTo(Double.parseDouble(cells[2]), within(1e-8));
      assertThat(limit.lowUs()).as(line).isCloseTo(low, within(0.1 * (high - low)));
      assertThat(limit.highUs()).as(line).isCloseTo(high, within(0.1 * (high - low)));
      compared++;
    }
    assertThat(compared).isEqualTo(8);
    assertThat(group.limit("mean", ControlMethod.ROBUST).standing())
        .isEqualTo(OwnLimit.Standing.ENOUGH);
    assertThat(group.limit("mean", ControlMethod.NONPARAMETRIC).standing())
        .isEqualTo(OwnLimit.Standing.TOO_FEW);
    assertThat(group.warnings()).anyMatch(w -> w.contains("too few for the nonparametric"));
  }

  /** Quantile regression against a linear programme, same script. */
  @Tag("crossCheck")
  @Test
  void theLineByAgeAgreesWithALinearProgramme() throws IOException {
    List<Control> controls = ControlFile.of("g.csv", text("control-group.csv"));
    double[] ages =
        controls.stream().mapToDouble(c -> Objects.requireNonNull(c.ageYears())).toArray();
    int compared = 0;
    for (String line : text("control-limits-expected.csv").lines().skip(1).toList()) {
      String[] cells = line.split(",", -1);
      if (cells[1].equals("LINE")) {
        QuantileLine found =
            QuantileLine.of(
                ages,
                controls.stream()
                    .mapToDouble(c -> cells[0].equals("mean") ? c.meanUs() : c.rankedUs())
                    .toArray(),
                0.975);
        assertThat(found.levelUs()).isCloseTo(Double.parseDouble(cells[2]), within(1e-6));
        assertThat(found.slopeUsPerYear()).isCloseTo(Double.parseDouble(cells[3]), within(1e-8));
        compared++;
      }
    }
    assertThat(compared).isEqualTo(2);
    ControlGroup group = ControlLimits.of(controls).get(0);
    assertThat(group.byAge()).isNotEmpty();
    assertThat(group.byAge().get(0).fromAgeYears()).isGreaterThanOrEqualTo(20);
    assertThat(group.byAge().get(group.byAge().size() - 1).belowAgeYears()).isLessThanOrEqualTo(79);
  }

  /**
   * Mean and SD over the subjects as published, and the limit printed from them: Kouyoumdjian and
   * Stalberg 2011 (means), 2013 (means; 18th of 20), Kouyoumdjian et al. 2022 (means; 27th of 30),
   * all abstracts. Printed limits are whole microseconds, rounded to the nearest or up.
   */
  @Tag("published")
  @ParameterizedTest
  @CsvSource({
    "mean, 20, 50, 21.5, 1.99, 26",
    "mean, 20, 20, 19.9, 2.9, 26",
    "single signal, 20, 20, 26.9, 4.4, 36",
    "mean, 30, 32, 19.79, 2.72, 26",
    "single signal, 30, 32, 26.88, 3.56, 34",
  })
  void meanAndTwoStandardDeviationsGiveThePublishedLimits(
      String what, int signals, int subjects, double mean, double sd, double printed) {
    double[] z = new Random(7).doubles(subjects).toArray();
    double centre = UpperLimit.mean(z);
    double spread = UpperLimit.sd(z);
    List<Control> controls = new ArrayList<>();
    for (int k = 0; k < subjects; k++) {
      double value = mean + sd * (z[k] - centre) / spread;
      List<Double> jitters = new ArrayList<>();
      int rank = 9 * signals / 10;
      for (int s = 1; s <= signals; s++) {
        jitters.add(
            what.equals("mean")
                ? value + (s % 2 == 0 ? 3 : -3)
                : s < rank ? value - 5 : s == rank ? value : value + 20);
      }
      controls.add(control("S" + k, null, jitters));
    }
    double limit = ControlLimits.of(controls).get(0).limit(what, ControlMethod.MEAN_2_SD).valueUs();
    assertThat(limit).isCloseTo(mean + 2 * sd, within(1e-9));
    assertThat(printed).isBetween(Math.floor(limit + 0.5), Math.ceil(limit));
  }

  @Test
  void aSubjectThatComesTwiceIsRefusedWithItsLine() {
    String a = "A,40,ED,concentric-small,voluntary,";
    String b = "B,41,ED,concentric-small,voluntary,";
    refused(a + "1,20\n" + b + "1,21\n" + a + "2,22\n", "line 4, subject", "first in line 2");
    refused(a + "1,20\n" + a + "1,21\n", "line 3", "with signal 1 again");
    refused(a + "1,20\n" + a.replace("40", "50") + "2,21\n", "line 3", "with another age");
    refused(a + "1,-2\n", "line 2, jitter_us", "0.1 to 2000 us");
    refused(a.replace("ED", "XX") + "1,20\n", "line 2, muscle", "table of muscles");
  }

  @Test
  void fewSubjectsAreSaidToBeFewAndAgeIsNotGuessed() throws TableFault {
    StringBuilder text = new StringBuilder(HEAD);
    for (int k = 0; k < 12; k++) {
      for (int s = 0; s < 20; s++) {
        text.append("S" + k + ",,ED,concentric-small,voluntary," + s + "," + (20 + k + s) + "\n");
      }
    }
    ControlGroup group = ControlLimits.of(ControlFile.of("g.csv", text.toString())).get(0);
    assertThat(group.warnings()).anyMatch(w -> w.contains("12 subjects: too few"));
    assertThat(group.byAge()).isEmpty();
    assertThat(group.limit("mean", ControlMethod.ROBUST).standing())
        .isEqualTo(OwnLimit.Standing.TOO_FEW);
  }

  @Test
  void twentyControlsBearOutALimitOrDoNot() {
    List<Control> controls = new ArrayList<>();
    for (int k = 0; k < 20; k++) {
      controls.add(control("S" + k, null, List.of(20.0 + k, 20.0 + k)));
    }
    assertThat(LimitTransfer.verify(controls, "mean", 37.5, 100).get(0))
        .isEqualTo(
            new LimitTransfer.Verification("mean", 37.5, 20, 2, LimitTransfer.Outcome.BORNE_OUT));
    assertThat(LimitTransfer.verify(controls, "mean", 36.5, 100).get(0).outcome())
        .isEqualTo(LimitTransfer.Outcome.REPEAT);
    assertThat(LimitTransfer.verify(controls, "mean", 30, 100).get(0).outcome())
        .isEqualTo(LimitTransfer.Outcome.NOT_BORNE_OUT);
    assertThat(LimitTransfer.verify(controls.subList(0, 19), "mean", 50, 100).get(0).outcome())
        .isEqualTo(LimitTransfer.Outcome.TOO_FEW);
  }

  /** Seeds 1 to 20: 300 healthy N(28, 3), 100 diseased N(60, 12). The true 97.7 % limit is 34. */
  @Test
  void thePlateauOfReferralsFindsTheHealthyAndSaysWhereItFails() {
    double sum = 0;
    for (long seed = 1; seed <= 20; seed++) {
      Random random = new Random(seed);
      double[] values = new double[400];
      for (int i = 0; i < values.length; i++) {
        values[i] = i < 300 ? 28 + 3 * random.nextGaussian() : 60 + 12 * random.nextGaussian();
      }
      ReferralPlateau plateau = ReferralPlateau.of(values);
      sum += plateau.limitUs();
      assertThat(plateau.warnings().get(0)).contains("extrapolated");
      assertThat(plateau.warnings()).noneMatch(w -> w.startsWith("fails"));
    }
    assertThat(sum / 20).isBetween(32.5, 34.5);
    double[] mixed = new double[60];
    Random random = new Random(5);
    for (int i = 0; i < 60; i++) {
      mixed[i] = Math.exp(3.4 + 0.9 * random.nextGaussian());
    }
    assertThat(ReferralPlateau.of(mixed).warnings()).anyMatch(w -> w.contains("60 referrals"));
  }

  private static void refused(String lines, String place, String found) {
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> ControlFile.of("controls.csv", HEAD + lines))
        .withMessageStartingWith("controls.csv: " + place)
        .withMessageContaining(found);
  }

  private static Control control(
      String subject, @org.jspecify.annotations.Nullable Double age, List<Double> jitters) {
    return new Control(
        subject, age, "extensor digitorum", "concentric-small", Activation.VOLUNTARY, "", jitters);
  }

  private static String text(String name) throws IOException {
    try (InputStream in = ControlLimitsTest.class.getResourceAsStream(name)) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
