package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.lonefibre.analysis.reference.Signals.pair;
import static org.lonefibre.analysis.reference.Signals.potential;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** Frontalis at 50 with the single-fibre electrode: mean 37.3 us, individual 57.5 us. */
class StudyJudgeTest {

  private static final Grade CLEAN = Grade.SINGLE_FIBRE;

  @Tag("published")
  @ParameterizedTest(name = "{0} of {1} raised: {2}")
  @CsvSource({
    "2, 20, NO_LIMIT_EXCEEDED",
    "3, 20, LIMIT_EXCEEDED",
    "3, 30, NO_LIMIT_EXCEEDED",
    "4, 30, LIMIT_EXCEEDED",
    "1, 15, NO_LIMIT_EXCEEDED",
    "2, 15, LIMIT_EXCEEDED"
  })
  void moreThanTenPercentOfTwentyIsThree(int raised, int signals, Verdict verdict) {
    StudySummary summary = frontalis(new Signals().pairs(raised, 60).pairs(signals - raised, 25));
    assertThat(summary.verdictByFullGrade()).isEqualTo(verdict);
    assertThat(summary.signalsAboveLimit()).isEqualTo(raised);
  }

  @Tag("published")
  @ParameterizedTest(name = "{0} of 20 raised: {1}")
  @CsvSource({"1, NO_LIMIT_EXCEEDED", "2, LIMIT_EXCEEDED"})
  void theOculiSetOf1988AllowsOneOfTwentyAndComparesTheMedian(int raised, Verdict verdict) {
    StudySummary summary =
        summarise(
            new Signals().endPlates(raised, 200).endPlates(20 - raised, 15),
            "OO",
            40.0,
            "single-fibre",
            Activation.STIMULATED,
            LimitSettings.defaults());
    assertThat(summary.verdictByFullGrade()).isEqualTo(verdict);
    assertThat(criterion(summary, "centre-above-limit").met()).isFalse();
    assertThat(summary.medianJitterUs()).isEqualTo(15);
  }

  @Tag("published")
  @Test
  void meanOfExactlyTwentySixExceedsTheLimitOfTibialisAnterior() {
    StudySummary at =
        summarise(
            new Signals().endPlates(30, 26),
            "TA",
            40.0,
            "concentric-small",
            Activation.STIMULATED,
            LimitSettings.defaults());
    assertThat(criterion(at, "centre-above-limit").met()).isTrue();
    assertThat(at.verdictByFullGrade()).isEqualTo(Verdict.LIMIT_EXCEEDED);

    StudySummary individual =
        summarise(
            new Signals().endPlates(4, 34).endPlates(26, 20),
            "TA",
            40.0,
            "concentric-small",
            Activation.STIMULATED,
            LimitSettings.defaults());
    assertThat(individual.signalsAboveLimit()).isZero();
  }

  @Tag("contract")
  @Test
  void valuesAreComparedUnrounded() {
    assertThat(frontalis(new Signals().pairs(20, 37.3)).verdictByFullGrade())
        .isEqualTo(Verdict.NO_LIMIT_EXCEEDED);
    assertThat(frontalis(new Signals().pairs(20, 37.3001)).verdictByFullGrade())
        .isEqualTo(Verdict.LIMIT_EXCEEDED);
  }

  @Tag("contract")
  @Test
  void blockingAndRaisedSignalsAreCountedTogetherOnce() {
    Signals study = new Signals().pairs(18, 25).pairs(1, 60);
    study.pair(60.0, 4, PairStatus.MEASURED, CLEAN, CLEAN);
    StudySummary summary = frontalis(study);
    assertThat(summary.signalsAboveLimit()).isEqualTo(2);
    assertThat(summary.signalsWithBlocking()).isEqualTo(1);
    assertThat(summary.signalsAboveLimitOrBlocking()).isEqualTo(2);
  }

  @Tag("contract")
  @Test
  void closeCallsCountByValueAndAreShownBothWays() {
    StudySummary summary = frontalis(new Signals().pairs(2, 70).pairs(1, 56).pairs(17, 25));
    Criterion outliers = criterion(summary, "outliers");
    assertThat(outliers.met()).isFalse();
    assertThat(outliers.metIfCloseCallsCountAgainst()).isTrue();
    assertThat(codes(summary)).contains(FindingCode.CLOSE_CALL);

    Criterion other =
        criterion(frontalis(new Signals().pairs(2, 70).pairs(1, 59).pairs(17, 25)), "outliers");
    assertThat(other.met()).isTrue();
    assertThat(other.metIfCloseCallsCountAgainst()).isFalse();
  }

  @Tag("contract")
  @Test
  void signalThatBlocksTooMuchCountsAsRaised() {
    Signals study = new Signals().pairs(18, 25);
    study.pair(null, 40, PairStatus.UNMEASURABLE, CLEAN, CLEAN, FindingCode.TOO_FEW_DIFFERENCES);
    study.pair(null, 0, PairStatus.UNMEASURABLE, CLEAN, CLEAN, FindingCode.TOO_FEW_DIFFERENCES);
    StudySummary summary = frontalis(study);
    assertThat(summary.signals()).isEqualTo(19);
    assertThat(summary.unmeasurableSignals()).isEqualTo(2);
    assertThat(summary.signalsAboveLimit()).isEqualTo(1);
    assertThat(summary.meanJitterUs()).isEqualTo(25);
    assertThat(codes(summary)).contains(FindingCode.MEAN_IS_LOWER_BOUND);
  }

  @Tag("contract")
  @Test
  void medianRanksSignalsWithoutNumberHighest() {
    Signals study = new Signals().pairs(1, 25).pairs(1, 30);
    study.pair(null, 40, PairStatus.UNMEASURABLE, CLEAN, CLEAN);
    assertThat(frontalis(study).medianJitterUs()).isEqualTo(30);
    study.pair(null, 40, PairStatus.UNMEASURABLE, CLEAN, CLEAN);
    assertThat(frontalis(study).medianJitterUs()).isNull();
  }

  @Tag("contract")
  @Test
  void bothVerdictsAreGivenAndMayDiffer() {
    Signals study = new Signals().pairs(17, 25);
    for (int i = 0; i < 3; i++) {
      study.pair(
          70.0, 0, PairStatus.EXCLUDED, Grade.COMPOSITE, Grade.SINGLE_FIBRE, FindingCode.COMPOSITE);
    }
    StudySummary summary = frontalis(study);
    assertThat(summary.verdictByFullGrade()).isEqualTo(Verdict.NO_LIMIT_EXCEEDED);
    assertThat(summary.verdictByTradeRules()).isEqualTo(Verdict.LIMIT_EXCEEDED);
    assertThat(summary.rejectedByFullGrade()).isEqualTo(3);
    assertThat(summary.rejectedByTradeRules()).isZero();
    assertThat(summary.excludedSignals()).isEqualTo(3);
    assertThat(criterion(summary, "outliers").text()).contains("trade's rules alone: 3 of 20");
  }

  @Tag("contract")
  @Test
  void whatTheTradeRefusesCountsByTheFullGradeOnly() {
    Signals study = new Signals().pairs(17, 25);
    for (int i = 0; i < 3; i++) {
      study.pair(70.0, 0, PairStatus.MEASURED, Grade.SINGLE_FIBRE, Grade.COMPOSITE);
    }
    StudySummary summary = frontalis(study);
    assertThat(summary.verdictByFullGrade()).isEqualTo(Verdict.LIMIT_EXCEEDED);
    assertThat(summary.verdictByTradeRules()).isEqualTo(Verdict.NO_LIMIT_EXCEEDED);
  }

  @Tag("contract")
  @Test
  void lowJitterStaysOutOfBothVerdictsEvenInAComposite() {
    Signals study = new Signals().pairs(20, 25);
    study.pair(
        3.0,
        0,
        PairStatus.EXCLUDED,
        Grade.COMPOSITE,
        CLEAN,
        FindingCode.COMPOSITE,
        FindingCode.LOW_JITTER);
    StudySummary summary = frontalis(study);
    assertThat(summary.signals()).isEqualTo(20);
    assertThat(summary.lowJitterSignals()).isEqualTo(1);
    assertThat(criterion(summary, "outliers").text()).contains("alone: 0 of 20");
  }

  @Tag("contract")
  @Test
  void pairsThatBringNothingNewAreNotCounted() {
    Signals study = new Signals().pairs(19, 25);
    study.unit(
        List.of(
            potential("p1", CLEAN, CLEAN),
            potential("p2", CLEAN, CLEAN),
            potential("p3", CLEAN, CLEAN)),
        List.of(
            pair("p1", "p2", 30.0, 0, PairStatus.MEASURED),
            pair("p1", "p3", 31.0, 0, PairStatus.MEASURED),
            pair("p2", "p3", 32.0, 0, PairStatus.MEASURED)));
    StudySummary summary = frontalis(study);
    assertThat(summary.signals()).isEqualTo(21);
    assertThat(summary.sites()).isEqualTo(20);
    assertThat(codes(summary)).containsExactly(FindingCode.SHARED_TRIGGER);
  }

  @Tag("contract")
  @Test
  void fewSignalsAreSaid() {
    assertThat(codes(frontalis(new Signals().pairs(19, 25))))
        .containsExactly(FindingCode.TOO_FEW_SIGNALS);
  }

  @Tag("contract")
  @Test
  void withoutSignalsNothingIsCompared() {
    StudySummary summary = frontalis(new Signals());
    assertThat(summary.verdictByFullGrade()).isEqualTo(Verdict.NOT_COMPARED);
    assertThat(summary.meanJitterUs()).isNull();
    assertThat(summary.medianJitterUs()).isNull();
    assertThat(summary.criteria()).isEmpty();
  }

  @Tag("contract")
  @Test
  void withoutLimitsEverythingIsMeasuredAndNothingCompared() {
    StudySummary summary =
        summarise(
            new Signals().pairs(20, 25),
            null,
            null,
            null,
            Activation.VOLUNTARY,
            LimitSettings.defaults());
    assertThat(summary.meanJitterUs()).isEqualTo(25);
    assertThat(summary.meanIntervalUs()).isEqualTo(800);
    assertThat(summary.meanDischargeRateHz()).isEqualTo(10);
    assertThat(summary.signalsAboveLimit()).isNull();
    assertThat(summary.limits()).isNull();
    assertThat(summary.verdictByTradeRules()).isEqualTo(Verdict.NOT_COMPARED);
    assertThat(codes(summary)).containsExactly(FindingCode.MISSING_DECLARATION);
  }

  @Tag("contract")
  @Test
  void blankIndividualLimitLeavesTheCentreAndBlocking() {
    Signals study = new Signals().pairs(17, 60);
    for (int i = 0; i < 3; i++) {
      study.pair(20.0, 2, PairStatus.MEASURED, CLEAN, CLEAN);
    }
    StudySummary summary =
        summarise(
            study,
            "SCM",
            70.0,
            "single-fibre",
            Activation.VOLUNTARY,
            LimitSettings.defaults().withMemoryRows(LimitSettings.MemoryRows.CONFIRMED));
    assertThat(summary.signalsAboveLimit()).isNull();
    assertThat(summary.signalsWithBlocking()).isEqualTo(3);
    assertThat(criterion(summary, "centre-above-limit").met()).isTrue();
    assertThat(criterion(summary, "outliers").text()).contains("individual limit is blank");
  }

  @Tag("contract")
  @Test
  void wordsAreFactsNeverADiagnosis() {
    StudySummary summary = frontalis(new Signals().pairs(3, 60).pairs(17, 25));
    assertThat(summary.criteria())
        .extracting(Criterion::text)
        .noneMatch(text -> text.contains("normal"))
        .containsExactly(
            "Mean jitter 30.3 us; exceeded when greater than 37.3 us. By the trade's rules alone:"
                + " mean jitter 30.3 us.",
            "3 of 20 signals above 57.5 us or blocking; rule: more than 10 % of signals. By the"
                + " trade's rules alone: 3 of 20.");
  }

  private static StudySummary frontalis(Signals signals) {
    return summarise(
        signals, "frontalis", 50.0, "single-fibre", Activation.VOLUNTARY, LimitSettings.defaults());
  }

  private static StudySummary summarise(
      Signals signals,
      @Nullable String muscle,
      @Nullable Double age,
      @Nullable String needle,
      Activation activation,
      LimitSettings limits) {
    return new StudyJudge(LimitCatalogue.load(limits), StudySettings.defaults())
        .summarise(
            new StudyDeclaration(
                muscle, age, needle, activation, StudyDeclaration.Origin.DECLARED, null, 500.0),
            signals.sites());
  }

  private static Criterion criterion(StudySummary summary, String code) {
    return summary.criteria().stream().filter(c -> c.code().equals(code)).findFirst().orElseThrow();
  }

  private static List<FindingCode> codes(StudySummary summary) {
    return summary.findings().stream().map(Finding::code).toList();
  }
}
