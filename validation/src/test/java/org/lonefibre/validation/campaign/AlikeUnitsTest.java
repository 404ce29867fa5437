package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.validation.score.UnitsScore;
import org.lonefibre.validation.score.UnitsScorer;

/** Three units whose potentials are alike, at the sites of the campaign that were hardest. */
@Tag("regression")
class AlikeUnitsTest {

  private static final UnitsSite THREE = UnitsSite.listAll().get(1);
  private static final UnitsSite THREE_FAST = UnitsSite.listAll().get(2);
  private static final double SAME_US = 150;
  private static final double SAME_S = 0.0004;

  /** Units that were taken for one, or for one more than there are. */
  @ParameterizedTest
  @CsvSource({"false, 1, 3", "false, 1, 4", "true, 1, 12"})
  void areKeptApart(boolean fast, long seed, int trial) throws IOException {
    SimulatedRecording recording = simulate(fast, seed, trial);
    RecordingResult result = analyse(recording);
    UnitsScore score = UnitsScorer.score(recording.truth(), result);
    assertThat(Objects.requireNonNull(result.motorUnits())).hasSize(3);
    assertThat(score.found()).isEqualTo(score.fibres());
    assertThat(score.swapped()).isLessThan((int) (0.03 * score.present()));
    assertThat(score.falseBlocks()).isZero();
  }

  /** Three units of like sizes and intervals, which differ only in both together. */
  @Test
  void unitsThatDifferInSizeAndIntervalTogetherAreToldApart() throws IOException {
    UnitsSite alike = UnitsSite.listAll().get(3);
    SimulatedRecording recording = alike.simulate(UnitsCampaign.stream(alike.name(), 1, 1));
    UnitsScore score = UnitsScorer.score(recording.truth(), analyse(recording));
    assertThat(score.found()).isEqualTo(score.fibres());
    assertThat(score.swapped()).isLessThan((int) (0.03 * score.present()));
    assertThat(score.falseBlocks()).isZero();
  }

  /**
   * Units alike that fire fast: two often fire soon after one another and each is taken for the
   * other (10), one is parted where there is nothing to part (4), one that falls silent takes
   * another's (15).
   */
  @ParameterizedTest
  @ValueSource(ints = {4, 10, 15})
  void fastUnitsAreNotTakenForEachOther(int trial) throws IOException {
    UnitsSite all = UnitsSite.listAll().get(7);
    SimulatedRecording recording = all.simulate(UnitsCampaign.stream(all.name(), 1, trial));
    UnitsScore score = UnitsScorer.score(recording.truth(), analyse(recording));
    assertThat(score.found()).isEqualTo(score.fibres());
    assertThat(score.swapped()).isLessThan((int) (0.02 * score.present()));
    assertThat(score.falseBlocks()).isZero();
  }

  /** What other units' discharges left in a unit before they were told apart is none of it. */
  @Test
  void whatOthersLeftInAUnitIsNoPotential() throws IOException {
    UnitsSite all = UnitsSite.listAll().get(7);
    SimulatedRecording recording = all.simulate(UnitsCampaign.stream(all.name(), 3, 6));
    RecordingResult result = analyse(recording);
    UnitsScore score = UnitsScorer.score(recording.truth(), result);
    List<MotorUnitResult> units = Objects.requireNonNull(result.motorUnits());
    assertThat(units.stream().mapToLong(unit -> unit.potentials().size()).sum())
        .isEqualTo(score.fibres());
    assertThat(score.found()).isEqualTo(score.fibres());
    assertThat(score.falseBlocks()).isZero();
  }

  /** A small potential in the tail of a large one that was first seen by its end alone. */
  @ParameterizedTest
  @CsvSource({"5, 5, U2F0, U2F1", "5, 9, U0F0, U0F1", "5, 13, U2F0, U2F1"})
  void theMovementOfASmallPotentialBehindALargeOneIsItsOwn(
      long seed, int trial, String trigger, String paired) throws IOException {
    SimulatedRecording recording = simulate(false, seed, trial);
    FibreTruth first = fibre(recording, trigger);
    FibreTruth second = fibre(recording, paired);
    double mean = 0;
    double moved = 0;
    int n = first.arrivalTimesS().size();
    for (int d = 0; d < n; d++) {
      mean += intervalUs(first, second, d) / n;
      moved +=
          d == 0
              ? 0
              : Math.abs(intervalUs(first, second, d) - intervalUs(first, second, d - 1)) / (n - 1);
    }
    double wanted = mean;
    double jitter = moved;
    assertThat(pairs(analyse(recording)))
        .filteredOn(pair -> isNear(pair.meanIntervalUs(), wanted, 20))
        .anySatisfy(
            pair -> assertThat(pair.correctedJitterUs()).isBetween(0.85 * jitter, 1.15 * jitter));
  }

  /** A sweep lies where its trigger arrived. */
  @ParameterizedTest
  @CsvSource({"5, 14", "1, 1"})
  void aSweepLiesWhereItsTriggerArrived(long seed, int trial) throws IOException {
    SimulatedRecording recording = simulate(false, seed, trial);
    for (PairResult pair : pairs(analyse(recording))) {
      List<SweepEntry> present =
          pair.intervals().stream().filter(s -> s.state() == SweepState.PRESENT).toList();
      long there = present.stream().filter(sweep -> isThere(recording, sweep)).count();
      assertThat(there).as(pair.pairedPotential()).isGreaterThan((long) (0.9 * present.size()));
    }
  }

  private static boolean isThere(SimulatedRecording recording, SweepEntry sweep) {
    double interval = Objects.requireNonNull(sweep.intervalUs());
    for (MotorUnitTruth unit : recording.truth().motorUnits()) {
      for (FibreTruth from : unit.fibres()) {
        for (FibreTruth to : unit.fibres()) {
          for (int d = 0; from != to && d < from.arrivalTimesS().size(); d++) {
            double at = Objects.requireNonNull(from.arrivalTimesS().get(d));
            if (Math.abs(at - sweep.timeS()) < SAME_S
                && isNear(intervalUs(from, to, d), interval, SAME_US)) {
              return true;
            }
          }
        }
      }
    }
    return false;
  }

  private static boolean isNear(@Nullable Double one, double other, double within) {
    return one != null && Math.abs(one - other) < within;
  }

  private static double intervalUs(FibreTruth from, FibreTruth to, int d) {
    return 1e6
        * (Objects.requireNonNull(to.arrivalTimesS().get(d))
            - Objects.requireNonNull(from.arrivalTimesS().get(d)));
  }

  private static FibreTruth fibre(SimulatedRecording recording, String id) {
    return recording.truth().motorUnits().stream()
        .flatMap(unit -> unit.fibres().stream())
        .filter(fibre -> fibre.id().equals(id))
        .findFirst()
        .orElseThrow();
  }

  private static List<PairResult> pairs(RecordingResult result) {
    return Objects.requireNonNull(result.motorUnits()).stream()
        .flatMap(unit -> unit.pairs().stream())
        .toList();
  }

  private static SimulatedRecording simulate(boolean fast, long seed, int trial) {
    UnitsSite site = fast ? THREE_FAST : THREE;
    return site.simulate(UnitsCampaign.stream(site.name(), seed, trial));
  }

  private static RecordingResult analyse(SimulatedRecording recording) throws IOException {
    return new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
        .analyse(
            recording,
            SiteRequest.whole(recording.truth().file(), "", recording.channels().get(0), "site"));
  }
}
