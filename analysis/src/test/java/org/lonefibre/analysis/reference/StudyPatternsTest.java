package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.lonefibre.analysis.reference.Signals.gaussian;
import static org.lonefibre.analysis.reference.Signals.pair;
import static org.lonefibre.analysis.reference.Signals.potential;
import static org.lonefibre.analysis.reference.Signals.withSweeps;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** What only a whole study shows. Frontalis at 50: individual limit 57.5 us. */
class StudyPatternsTest {

  private static final Grade CLEAN = Grade.SINGLE_FIBRE;

  @Tag("contract")
  @Test
  void sameDischargesUnderTwoNamesAreFound() {
    List<SweepEntry> once = gaussian(60, 20, 1);
    List<SweepEntry> noisy = changed(once.subList(7, 60), 3, 2, 1);
    StudySummary summary = judge(new Signals().sweeps(22, once).pairs(3, 25).sweeps(23, noisy));
    assertThat(text(summary, FindingCode.SAME_PAIR_TWICE))
        .hasValueSatisfying(
            text -> assertThat(text).contains("site 1 p1-p2 and site 5 p1-p2").contains("twice"));
    assertThat(summary.signals()).isEqualTo(5);
  }

  @Tag("contract")
  @Test
  void exchangedTriggerAndPairedPotentialAreFoundToo() {
    List<SweepEntry> once = gaussian(60, 20, 3);
    StudySummary summary =
        judge(new Signals().sweeps(22, once).sweeps(22, changed(once, 0, 4, -1)));
    assertThat(text(summary, FindingCode.SAME_PAIR_TWICE)).isPresent();
  }

  /** Other discharges, but interval, jitter, sizes and rise times of one pair. */
  @Tag("contract")
  @Test
  void aPairRecordedAgainIsNoted() {
    List<PotentialResult> both =
        List.of(potential("p1", CLEAN, CLEAN), potential("p2", CLEAN, CLEAN));
    List<PairResult> one =
        List.of(withSweeps(pair("p1", "p2", 22.0, 0, PairStatus.MEASURED), gaussian(60, 20, 5)));
    List<PairResult> later =
        List.of(withSweeps(pair("p1", "p2", 22.0, 0, PairStatus.MEASURED), gaussian(60, 20, 6)));
    StudySummary again = judge(new Signals().unit(both, one).pairs(3, 25).unit(both, later));
    assertThat(text(again, FindingCode.SAME_PAIR_TWICE))
        .hasValueSatisfying(
            text -> assertThat(text).contains("site 1 p1-p2 and site 5 p1-p2").contains("again"));
    List<PairResult> unsteadier =
        List.of(withSweeps(pair("p1", "p2", 40.0, 0, PairStatus.MEASURED), gaussian(60, 36, 6)));
    StudySummary other = judge(new Signals().unit(both, one).unit(both, unsteadier));
    assertThat(text(other, FindingCode.SAME_PAIR_TWICE)).isEmpty();
  }

  @Tag("property")
  @Test
  void differentRecordingsAreNeverTakenForTheSame() {
    Signals study = new Signals();
    for (int seed = 100; seed < 140; seed++) {
      study.sweeps(22, gaussian(seed % 2 == 0 ? 60 : 150, 20, seed));
    }
    assertThat(text(judge(study), FindingCode.SAME_PAIR_TWICE)).isEmpty();
  }

  @Tag("contract")
  @Test
  void constantIntervalsAreNotCompared() {
    List<SweepEntry> still = gaussian(60, 0, 5);
    assertThat(
            text(
                judge(new Signals().sweeps(6, still).sweeps(6, still)),
                FindingCode.SAME_PAIR_TWICE))
        .isEmpty();
  }

  @Tag("contract")
  @Test
  void blocksOfTheAxonAreNamedAndTheRuleShownWithoutThem() {
    Signals study = new Signals().pairs(16, 25);
    for (int unit = 0; unit < 2; unit++) {
      study.unit(
          List.of(
              Finding.caution(
                  FindingCode.AXONAL_BLOCK, "", Evidence.ofSweeps(List.of(10, 11, 30)))),
          List.of(
              potential("p1", CLEAN, CLEAN),
              potential("p2", CLEAN, CLEAN),
              potential("p3", CLEAN, CLEAN)),
          List.of(
              withSweeps(
                  pair("p1", "p2", 25.0, 0, PairStatus.MEASURED),
                  gaussian(61, 20, 10 + unit, 10, 11, 30)),
              withSweeps(
                  pair("p1", "p3", 25.0, 0, PairStatus.MEASURED),
                  unit == 0
                      ? gaussian(61, 20, 20, 10, 11, 30)
                      : gaussian(61, 20, 21, 10, 11, 30, 40))));
    }
    StudySummary summary = judge(study);
    assertThat(summary.signalsWithBlocking()).isEqualTo(4);
    assertThat(summary.verdictByFullGrade()).isEqualTo(Verdict.LIMIT_EXCEEDED);
    assertThat(text(summary, FindingCode.AXONAL_BLOCK))
        .hasValueSatisfying(
            text ->
                assertThat(text)
                    .contains("site 17 p1-p2, site 17 p1-p3, site 18 p1-p2 ")
                    .contains("1 of 20 signals would be raised or blocking")
                    .contains("would not be met"));
  }

  @Tag("contract")
  @Test
  void blocksOfAnEndPlateAloneSayNothingOfTheAxon() {
    StudySummary summary =
        judge(new Signals().pairs(19, 25).sweeps(60, gaussian(61, 20, 7, 10, 11, 30)));
    assertThat(summary.signalsWithBlocking()).isEqualTo(1);
    assertThat(text(summary, FindingCode.AXONAL_BLOCK)).isEmpty();
  }

  @Tag("contract")
  @Test
  void aCoolMuscleIsSaidOfTheTemperatureAlone() {
    Signals study = new Signals().pairs(20, 25);
    assertThat(text(judge(study, 30.5), FindingCode.COOL_MUSCLE))
        .hasValueSatisfying(text -> assertThat(text).contains("30.5 degrees").contains("32 or"));
    assertThat(text(judge(study, 32.0), FindingCode.COOL_MUSCLE)).isEmpty();
    assertThat(text(judge(study), FindingCode.COOL_MUSCLE)).isEmpty();
  }

  /** Sweeps with other arrival noise, numbered anew, perhaps with the sign turned. */
  private static List<SweepEntry> changed(
      List<SweepEntry> sweeps, double noiseUs, long seed, int sign) {
    Random random = new Random(seed);
    List<SweepEntry> changed = new ArrayList<>();
    for (SweepEntry sweep : sweeps) {
      Double interval = sweep.intervalUs();
      changed.add(
          new SweepEntry(
              changed.size() + 1,
              sweep.timeS() + 100,
              interval == null ? null : sign * (interval + noiseUs * random.nextGaussian()),
              sweep.errorUs(),
              interval == null ? SweepState.BLOCKED : SweepState.PRESENT));
    }
    return changed;
  }

  private static Optional<String> text(StudySummary summary, FindingCode code) {
    return summary.findings().stream()
        .filter(finding -> finding.code() == code)
        .map(Finding::text)
        .findFirst();
  }

  private static StudySummary judge(Signals study) {
    return judge(study, null);
  }

  private static StudySummary judge(Signals study, @Nullable Double temperatureDegC) {
    return new StudyJudge(LimitCatalogue.load(LimitSettings.defaults()), StudySettings.defaults())
        .summarise(
            new StudyDeclaration(
                "frontalis",
                50.0,
                "single-fibre",
                Activation.VOLUNTARY,
                StudyDeclaration.Origin.DECLARED,
                null,
                500.0,
                temperatureDegC),
            study.sites());
  }
}
