package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.study.ProgressFact;
import org.lonefibre.analysis.study.ProgressFact.Certain;
import org.lonefibre.analysis.study.StudyAlternative;
import org.lonefibre.analysis.study.StudyProgress;
import org.lonefibre.analysis.study.StudySummary;

class EnoughTest {

  private static final Enough LIMITS = new Enough(Enough.Centre.MEAN, 31.0, 45.0, 10, 20);

  @ParameterizedTest
  @CsvSource({
    "3, 6, MET, '3 of 9 signals above the limit or blocking: of 20, the rule is met whatever follows.'",
    "2, 7, OPEN, '2 of 9 signals above the limit or blocking: of 20, 1 more among the next 11 would meet the rule.'",
    "0, 18, NOT_MET, '0 of 18 signals above the limit or blocking: of 20, the rule is not met whatever follows.'",
    "2, 18, NOT_MET, '2 of 20 signals above the limit or blocking: the rule is not met.'",
    "3, 17, MET, '3 of 20 signals above the limit or blocking: the rule is met.'",
    "0, 0, OPEN, '0 of 0 signals above the limit or blocking: of 20, 3 more among the next 20 would meet the rule.'",
  })
  void whatHoldsWhateverFollowsIsCounted(int above, int below, Certain certain, String text) {
    ProgressFact fact = LIMITS.after(signals(above, below)).facts().get(1);
    assertThat(fact.certain()).isEqualTo(certain);
    assertThat(fact.text()).startsWith(text);
  }

  /** Every completion of 14 seen signals is tried with the extremes that may follow. */
  @Test
  void noCompletionContradictsWhatIsCertain() {
    for (int above = 0; above <= 14; above++) {
      List<SeenSignal> seen = signals(above, 14 - above);
      for (ProgressFact fact : LIMITS.after(seen).facts()) {
        for (double following : new double[] {5, 45.1, 5000}) {
          List<SeenSignal> all = new ArrayList<>(seen);
          all.addAll(Collections.nCopies(6, new SeenSignal(following, 0)));
          ProgressFact end =
              LIMITS.after(all).facts().stream()
                  .filter(f -> f.code().equals(fact.code()))
                  .findFirst()
                  .orElseThrow();
          if (fact.certain() != Certain.OPEN) {
            assertThat(end.certain()).isEqualTo(fact.certain());
          }
        }
      }
    }
  }

  @Test
  void anEndedTestDoesNotBeginAgainAndEndsAtTheUsualNumber() {
    ProgressFact early = LIMITS.after(signals(6, 0)).facts().get(1);
    assertThat(early.decidedAfterSignals()).isEqualTo(5);
    ProgressFact later = LIMITS.after(signals(6, 14)).facts().get(1);
    assertThat(later.sequential()).isEqualTo(ProgressFact.Sequential.EXCEEDED);
    assertThat(later.decidedAfterSignals()).isEqualTo(5);
    for (int above = 0; above <= 20; above++) {
      for (ProgressFact fact : LIMITS.after(signals(above, 20 - above)).facts()) {
        assertThat(fact.decidedAfterSignals()).isNotNull().isBetween(5, 20);
      }
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Enough(Enough.Centre.MEAN, 31.0, 45.0, 10, 0));
  }

  @Test
  void aStudySaysWhatItCanAndHowItWouldBeCountedOtherwise() {
    StudyDeclaration study =
        new StudyDeclaration(
            "frontalis",
            45.0,
            "concentric-small",
            org.lonefibre.analysis.study.Activation.VOLUNTARY,
            StudyDeclaration.Origin.DECLARED,
            "cn-frontalis-voluntary-2013",
            1000.0);
    StudySummary summary =
        new StudyJudge(LimitCatalogue.load(LimitSettings.defaults()), StudySettings.defaults())
            .summarise(study, new Signals().pairs(6, 20).pairs(3, 44.5).sites());
    StudyProgress progress = java.util.Objects.requireNonNull(summary.progress());
    assertThat(progress.facts().get(1).text()).startsWith("3 of 9 signals").contains("whatever");
    assertThat(summary.alternatives())
        .extracting(StudyAlternative::code)
        .startsWith("doubtful-left-out", "msd-for-all", "other-limits");
    assertThat(summary.alternatives())
        .filteredOn(a -> a.text().contains("cn-japan-2012"))
        .singleElement()
        .satisfies(a -> assertThat(a.signalsAboveLimitOrBlocking()).isZero());
  }

  private static List<SeenSignal> signals(int above, int below) {
    List<SeenSignal> signals = new ArrayList<>(Collections.nCopies(above, new SeenSignal(60.0, 0)));
    signals.addAll(Collections.nCopies(below, new SeenSignal(20.0, 0)));
    return signals;
  }
}
