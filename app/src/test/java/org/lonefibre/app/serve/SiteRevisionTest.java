package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.api.recursive.comparison.RecursiveComparisonConfiguration;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.SiteRevision;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Decision.Mark;
import org.lonefibre.analysis.study.Decision.Standing;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.DemoStudy;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;

/** Decisions of a person on sites of the demo study, computed from the kept result. */
@SuppressWarnings("NullAway.Init")
class SiteRevisionTest {

  /** Three potentials, two units, blocking. */
  private static final List<Integer> SITES = List.of(3, 5, 8);

  private static final AnalysisSettings SETTINGS = AnalysisSettings.defaultsFor(DemoStudy.NEEDLE);
  private static final SiteRevision REVISION = new SiteRevision(SETTINGS.jitter());

  private static List<RecordingResult> automatic;

  @BeforeAll
  static void analyse() throws IOException {
    automatic = new ArrayList<>();
    for (int site : SITES) {
      try (Recording recording = DemoStudy.plan().simulate(site - 1)) {
        automatic.add(
            new SiteAnalyser(SETTINGS)
                .analyse(
                    recording,
                    SiteRequest.whole(
                        "site.edf", "0".repeat(64), recording.channels().get(0), "site")));
      }
    }
  }

  private static PairResult first(RecordingResult site) {
    return units(site).get(0).pairs().get(0);
  }

  private static List<MotorUnitResult> units(RecordingResult site) {
    return java.util.Objects.requireNonNull(site.motorUnits());
  }

  private static RecordingResult revised(int index, Decision... decisions) {
    return REVISION.revise(automatic.get(index), List.of(decisions));
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2})
  void withoutDecisionsTheAutomaticResultComesBack(int index) {
    RecursiveComparisonConfiguration near =
        RecursiveComparisonConfiguration.builder()
            .withComparatorForType((a, b) -> Math.abs(a - b) < 1e-6 ? 0 : 1, Double.class)
            // The words round what is compared apart.
            .withIgnoredFieldsOfTypes(Finding.class)
            .build();
    assertThat(revised(index)).usingRecursiveComparison(near).isEqualTo(automatic.get(index));
    assertThat(codes(revised(index))).isEqualTo(codes(automatic.get(index)));
  }

  private static List<FindingCode> codes(RecordingResult site) {
    List<FindingCode> codes = new ArrayList<>();
    for (MotorUnitResult unit : units(site)) {
      unit.findings().forEach(finding -> codes.add(finding.code()));
      unit.pairs().forEach(pair -> pair.findings().forEach(finding -> codes.add(finding.code())));
    }
    return codes;
  }

  @Test
  void anExcludedSweepLeavesTheDifferencesAndComesBack() {
    PairResult before = first(automatic.get(0));
    int sweep =
        before.intervals().stream()
            .filter(s -> s.sweep() > 5 && s.state() == SweepState.PRESENT)
            .findFirst()
            .orElseThrow()
            .sweep();
    Decision out = new Decision.Sweeps(before.id(), sweep, sweep, Mark.EXCLUDED, "movement");
    PairResult after = first(revised(0, out));
    assertThat(after.excludedSweeps()).isEqualTo(before.excludedSweeps() + 1);
    assertThat(after.presentSweeps()).isEqualTo(before.presentSweeps() - 1);
    assertThat(after.differences()).isEqualTo(before.differences() - 2);
    assertThat(after.findings())
        .anyMatch(finding -> finding.code() == FindingCode.EXCLUDED_BY_PERSON);
    PairResult restored =
        first(
            revised(
                0,
                out,
                new Decision.Sweeps(before.id(), sweep, sweep, Mark.AUTOMATIC, "after all")));
    assertThat(restored.jitterUs()).isCloseTo(before.jitterUs(), within(1e-6));
  }

  @Test
  void aSweepMarkedBlockedCountsAsBlocked() {
    PairResult before = first(automatic.get(0));
    PairResult after =
        first(revised(0, new Decision.Sweeps(before.id(), 10, 14, Mark.BLOCKED, "seen absent")));
    long present =
        before.intervals().stream()
            .filter(s -> s.sweep() >= 10 && s.sweep() <= 14 && s.state() != SweepState.BLOCKED)
            .count();
    assertThat(after.blockedSweeps()).isEqualTo(before.blockedSweeps() + present);
    assertThat(after.blockingPercent()).isGreaterThan(before.blockingPercent());
  }

  @Test
  void aStretchIsExcludedInEverySignal() {
    RecordingResult after = revised(0, new Decision.Stretch(1, 3, Standing.EXCLUDED, "movement"));
    for (PairResult pair : units(after).get(0).pairs()) {
      assertThat(pair.intervals())
          .allMatch(s -> (s.timeS() >= 1 && s.timeS() < 3) == (s.state() == SweepState.EXCLUDED));
    }
  }

  @Test
  void aPotentialGradedCompositeLeavesTheStatisticsAndComesBack() {
    PairResult before = first(automatic.get(0));
    Decision composite =
        new Decision.Grading(before.pairedPotential(), Grade.COMPOSITE, "two rising phases");
    assertThat(first(revised(0, composite)).status()).isEqualTo(PairStatus.EXCLUDED);
    assertThat(
            first(
                    revised(
                        0,
                        composite,
                        new Decision.Grading(
                            before.pairedPotential(), Grade.SINGLE_FIBRE, "one after all")))
                .status())
        .isEqualTo(PairStatus.MEASURED);
  }

  @Test
  void anExcludedPotentialTakesItsSignalsWithIt() {
    MotorUnitResult unit = units(automatic.get(0)).get(0);
    String trigger = unit.pairs().get(0).triggerPotential();
    RecordingResult after =
        revised(0, new Decision.OfPotential(trigger, Standing.EXCLUDED, "not one fibre"));
    assertThat(units(after).get(0).pairs())
        .isNotEmpty()
        .allMatch(pair -> pair.status() == PairStatus.EXCLUDED);
  }

  @Test
  void anotherTriggerGivesTheSameIntervalTurnedRound() {
    PairResult before = first(automatic.get(0));
    String unit = units(automatic.get(0)).get(0).id();
    RecordingResult after =
        revised(0, new Decision.Trigger(unit, before.pairedPotential(), "steadier"));
    PairResult turned =
        units(after).get(0).pairs().stream()
            .filter(pair -> pair.pairedPotential().equals(before.triggerPotential()))
            .findFirst()
            .orElseThrow();
    assertThat(turned.jitterUs()).isCloseTo(before.jitterUs(), within(1e-6));
    assertThat(turned.meanIntervalUs())
        .isCloseTo(-java.util.Objects.requireNonNull(before.meanIntervalUs()), within(1e-6));
    RecordingResult back =
        revised(
            0,
            new Decision.Trigger(unit, before.pairedPotential(), "steadier"),
            new Decision.Trigger(unit, before.triggerPotential(), "no"));
    assertThat(first(back).jitterUs()).isCloseTo(before.jitterUs(), within(1e-6));
  }

  @Test
  void aDecisionAboutNothingIsRefused() {
    assertThatThrownBy(
            () -> revised(0, new Decision.OfSignal("9z-9y", Standing.EXCLUDED, "why not")))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Decision.OfSignal("1a-1b", Standing.EXCLUDED, " "))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("reason");
  }
}
