package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;

class BeforeAfterTest {

  /** Jitter: scipy 1.17.1, ttest_ind(after, before, equal_var=False).confidence_interval(). */
  @Tag("crossCheck")
  @Test
  void theChangeOfTheMeanHasTheIntervalOfAnIndependentLibrary() {
    BeforeAfter change =
        BeforeAfter.of(
                examination("L-1", "h", "frontalis", 0, 20, 25, 30, 22, 28),
                examination("L-1", "h", "frontalis", 0, 30, 36, 41, 29, 33, 38))
            .get(0);
    assertThat(change.jitterChangeUs()).isCloseTo(9.5, within(1e-9));
    assertThat(change.jitterChangeLowUs()).isCloseTo(3.488247795378789, within(1e-6));
    assertThat(change.jitterChangeHighUs()).isCloseTo(15.51175220462121, within(1e-6));
    assertThat(change.before().signals()).isEqualTo(5);
    assertThat(change.after().visit().medication()).isEqualTo("pyridostigmine, 12 h before");
  }

  /** Newcombe 1998, Stat Med 17:873, table II, method 10: 56/70 - 48/80. */
  @Tag("published")
  @Test
  void theIntervalOfTwoSharesIsThePublishedOne() {
    double[] change = BeforeAfter.newcombe(48, 80, 56, 70);
    assertThat(change[0]).isCloseTo(20, within(1e-9));
    assertThat(change[1]).isCloseTo(5.24, within(0.005));
    assertThat(change[2]).isCloseTo(33.39, within(0.005));
  }

  @Test
  void whatDoesNotMatchIsNotCompared() {
    Examination first = examination("L-1", "h", "frontalis", 0, 20, 25);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BeforeAfter.of(first, examination("L-2", "h", "frontalis", 0, 20, 25)))
        .withMessageContaining("one subject code");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BeforeAfter.of(first, examination(null, "h", "frontalis", 0, 20, 25)));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BeforeAfter.of(first, examination("L-1", "g", "frontalis", 0, 20, 25)))
        .withMessageContaining("settings");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BeforeAfter.of(first, examination("L-1", "h", "deltoid", 0, 20, 25)))
        .withMessageContaining("same muscle");
  }

  @Test
  void oneSignalGivesAChangeWithoutAnInterval() {
    BeforeAfter change =
        BeforeAfter.of(
                examination("L-1", "h", "frontalis", 0, 20.0),
                examination("L-1", "h", "frontalis", 3, 30.0))
            .get(0);
    assertThat(change.jitterChangeUs()).isEqualTo(10);
    assertThat(change.jitterChangeLowUs()).isNull();
    assertThat(change.blockingChangePercent()).isEqualTo(100);
    assertThat(change.blockingChangeLowPercent()).isNotNull();
  }

  private static Examination examination(
      @Nullable String code, String hash, String muscle, int blocked, double... jittersUs) {
    Signals signals = new Signals();
    for (double jitter : jittersUs) {
      signals.pair(jitter, blocked, PairStatus.MEASURED, Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE);
    }
    StudyDeclaration declaration =
        new StudyDeclaration(
            muscle,
            45.0,
            "single-fibre",
            Activation.VOLUNTARY,
            StudyDeclaration.Origin.DECLARED,
            null,
            500.0);
    Study study =
        new Study(
            muscle,
            null,
            Activation.VOLUNTARY,
            "single-fibre",
            signals.sites(),
            new StudyJudge(LimitCatalogue.load(LimitSettings.defaults()), StudySettings.defaults())
                .summarise(declaration, signals.sites()));
    return new Examination(
        Examination.SCHEMA,
        new Producer("Lonefibre", "test"),
        "2026-02-03T00:00:00Z",
        new SettingsStamp("1", hash, List.of()),
        new Subject(code, 45.0),
        new Visit("2026-02-03", null, 33.0, "pyridostigmine, 12 h before", null),
        List.of(study),
        List.of(),
        null);
  }
}
