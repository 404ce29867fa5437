package org.lonefibre.validation.campaign;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.SimulatedRecording;

/**
 * A pair as the chain measured it beside the two fibres that made most of it.
 *
 * @param trueUs jitter that the end-plates of those fibres give together
 * @param measuredUs corrected jitter
 * @param company what stands beside the two
 * @param isFailing one of the two fibres does not fire in 3 % of the discharges or more
 * @param blocks sweeps judged blocked
 * @param byTradeRules both potentials pass the trade's rules of thumb
 * @param byFullGrade both pass the full judgement: neither is composite
 */
record PairLook(
    double trueUs,
    double measuredUs,
    Company company,
    boolean isFailing,
    int blocks,
    boolean byTradeRules,
    boolean byFullGrade) {

  private static final double ALIKE_US = 100;
  private static final double NEAR_S = 0.01;
  private static final double CLEAN_US = 500;
  private static final double CLEAN_RATIO = 0.1;
  private static final double COMPOSITE_US = 400;
  private static final double COMPOSITE_RATIO = 0.25;
  private static final double LONGEST_US = 4000;
  private static final double FAILING_RATIO = 0.03;

  /** Other fibres of the unit beside one of the two. */
  enum Company {
    /** None within 500 us has a tenth of its size. */
    NONE,
    /** One has, but none within 400 us has a quarter. */
    SMALL,
    /** One within 400 us has a quarter, and is measured as a potential of its own. */
    APART,
    /** One within 400 us has a quarter, and is not: the potential is composite. */
    HIDDEN
  }

  /** All pairs of a voluntary site that were measured and can be told to be of two fibres. */
  static List<PairLook> of(SimulatedRecording recording, AnalysisSettings settings) {
    try {
      RecordingResult result =
          new SiteAnalyser(settings)
              .analyse(
                  recording,
                  SiteRequest.whole(
                      recording.truth().file(), "", recording.channels().get(0), "site"));
      List<PairLook> looks = new ArrayList<>();
      List<MotorUnitResult> units = result.motorUnits() == null ? List.of() : result.motorUnits();
      for (MotorUnitResult unit : units) {
        for (PairResult pair : unit.pairs()) {
          PairLook look = look(recording, unit, pair);
          if (look != null) {
            looks.add(look);
          }
        }
      }
      return looks;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static @Nullable PairLook look(
      SimulatedRecording recording, MotorUnitResult unit, PairResult pair) {
    Double interval = pair.meanIntervalUs();
    Double jitter = pair.correctedJitterUs();
    PotentialResult trigger = named(unit, pair.triggerPotential());
    PotentialResult paired = named(unit, pair.pairedPotential());
    if (interval == null
        || jitter == null
        || trigger == null
        || paired == null
        || Math.abs(interval) > LONGEST_US) {
      return null;
    }
    MotorUnitTruth truth = firing(recording, pair);
    FibreTruth[] fibres = truth == null ? null : fibres(truth, pair, interval);
    if (truth == null || fibres == null) {
      return null;
    }
    return new PairLook(
        Math.hypot(fibres[0].endPlateJitterUs(), fibres[1].endPlateJitterUs()),
        jitter,
        company(truth, unit, fibres, new PotentialResult[] {trigger, paired}),
        fails(fibres[0]) || fails(fibres[1]),
        pair.blockedSweeps(),
        trigger.gradeByTradeRules() == Grade.SINGLE_FIBRE
            && paired.gradeByTradeRules() == Grade.SINGLE_FIBRE,
        trigger.grade() != Grade.COMPOSITE && paired.grade() != Grade.COMPOSITE);
  }

  private static @Nullable PotentialResult named(MotorUnitResult unit, String id) {
    return unit.potentials().stream().filter(p -> p.id().equals(id)).findFirst().orElse(null);
  }

  /** The unit that fires when the pair is seen. */
  private static @Nullable MotorUnitTruth firing(SimulatedRecording recording, PairResult pair) {
    MotorUnitTruth best = null;
    double most = 0.8;
    for (MotorUnitTruth unit : recording.truth().motorUnits()) {
      long alike =
          pair.intervals().stream()
              .filter(
                  s ->
                      unit.dischargeTimesS().stream()
                          .anyMatch(t -> Math.abs(t + 0.004 - s.timeS()) < NEAR_S))
              .count();
      double share = (double) alike / Math.max(1, pair.sweeps());
      if (share > most) {
        most = share;
        best = unit;
      }
    }
    return best;
  }

  /**
   * The largest two fibres, by the smaller of both, whose interval is that of the pair and of which
   * the first arrives where its trigger does.
   */
  private static FibreTruth @Nullable [] fibres(
      MotorUnitTruth truth, PairResult pair, double intervalUs) {
    FibreTruth[] best = null;
    double largest = 0;
    for (FibreTruth a : truth.fibres()) {
      if (a.amplitudeUv() <= largest || !isTrigger(a, pair)) {
        continue;
      }
      for (FibreTruth b : truth.fibres()) {
        double smaller = Math.min(a.amplitudeUv(), b.amplitudeUv());
        if (a != b && smaller > largest && Math.abs(distanceUs(a, b) - intervalUs) < ALIKE_US) {
          largest = smaller;
          best = new FibreTruth[] {a, b};
        }
      }
    }
    return best;
  }

  /** Whether a fibre arrives where the trigger of the pair does. */
  private static boolean isTrigger(FibreTruth fibre, PairResult pair) {
    double[] afterUs =
        pair.intervals().stream()
            .flatMapToDouble(
                sweep ->
                    fibre.arrivalTimesS().stream()
                        .filter(Objects::nonNull)
                        .mapToDouble(arrival -> arrival - sweep.timeS())
                        .filter(after -> Math.abs(after) < NEAR_S)
                        .map(after -> 1e6 * after))
            .toArray();
    return Math.abs(Arrays.stream(afterUs).average().orElse(Double.NaN)) < ALIKE_US;
  }

  private static boolean fails(FibreTruth fibre) {
    List<@Nullable Double> arrivals = fibre.arrivalTimesS();
    long missing = arrivals.stream().filter(Objects::isNull).count();
    return missing >= FAILING_RATIO * arrivals.size();
  }

  private static Company company(
      MotorUnitTruth truth, MotorUnitResult unit, FibreTruth[] fibres, PotentialResult[] made) {
    Company most = Company.NONE;
    for (int i = 0; i < fibres.length; i++) {
      for (FibreTruth other : truth.fibres()) {
        Company one = other == fibres[i] ? Company.NONE : company(unit, fibres[i], made[i], other);
        most = one.compareTo(most) > 0 ? one : most;
      }
    }
    return most;
  }

  private static Company company(
      MotorUnitResult unit, FibreTruth fibre, PotentialResult made, FibreTruth other) {
    double awayUs = distanceUs(fibre, other);
    double ratio = other.amplitudeUv() / fibre.amplitudeUv();
    if (ratio >= COMPOSITE_RATIO && Math.abs(awayUs) < COMPOSITE_US) {
      return unit.potentials().stream()
              .filter(potential -> !potential.id().equals(made.id()))
              .mapToDouble(potential -> 1000 * (potential.offsetMs() - made.offsetMs()))
              .anyMatch(foundUs -> Math.abs(foundUs - awayUs) < ALIKE_US)
          ? Company.APART
          : Company.HIDDEN;
    }
    return ratio >= CLEAN_RATIO && Math.abs(awayUs) < CLEAN_US ? Company.SMALL : Company.NONE;
  }

  /** Mean of the second's arrival after the first's; not a number if they never fire together. */
  private static double distanceUs(FibreTruth a, FibreTruth b) {
    double sum = 0;
    int n = 0;
    for (int d = 0; d < a.arrivalTimesS().size(); d++) {
      Double from = a.arrivalTimesS().get(d);
      Double to = b.arrivalTimesS().get(d);
      if (from != null && to != null) {
        sum += 1e6 * (to - from);
        n++;
      }
    }
    return n == 0 ? Double.NaN : sum / n;
  }
}
