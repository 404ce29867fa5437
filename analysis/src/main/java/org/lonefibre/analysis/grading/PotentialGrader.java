package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.grading.GradedPotential.ShapeEvidence;
import org.lonefibre.analysis.potential.FibreLikeness;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Judges whether one fibre made a potential: from the constancy of its shape ({@link ShapeScan})
 * and from what one fibre can look like ({@link FibreLikeness}), weighed together ({@link
 * OneFibreProbability}); beside it, by the rules of thumb of the trade ({@link AcceptanceRules}).
 *
 * <ul>
 *   <li>Fewer sweeps than the settings ask for: ungraded. SNR under the settings: doubtful.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class PotentialGrader {

  private static final double BEFORE_US = 500;
  private static final double AFTER_US = 700;
  private static final double STEEP_US = 250;
  private static final double NEAR_US = 300;
  private static final double NEAR_SHARE = 0.1;
  private static final double NEAR_PROBABILITY = 0.02;
  private static final int FEWEST_ALIGNED = 4;

  private final GradingSettings settings;
  private final ConditionedSignal signal;
  private final FibreLikeness likeness;

  /** A grader for the potentials of one signal. */
  public PotentialGrader(GradingSettings settings, ConditionedSignal signal) {
    this.settings = settings;
    this.signal = signal;
    this.likeness = new FibreLikeness(signal);
  }

  /**
   * The judgement of each potential of a unit, in the order of the unit. The least constant is
   * judged first: what moves in it is not held against its neighbours.
   *
   * @param units all units of the site: what they put beside the potentials is taken out
   */
  public List<GradedPotential> grade(List<TrackedUnit> units, TrackedUnit unit) {
    List<AlignedSweeps> sweeps =
        unit.potentials().stream()
            .map(one -> new AlignedSweeps(signal, units, unit, one, BEFORE_US, AFTER_US))
            .toList();
    NeighbourRests rests = new NeighbourRests(signal, unit, sweeps);
    GradedPotential[] grades = new GradedPotential[sweeps.size()];
    for (int p : rests.leastConstantFirst()) {
      grades[p] = grade(units, unit, unit.potentials().get(p), sweeps.get(p), rests.leftoverUv(p));
      if (grades[p].grade() == Grade.COMPOSITE) {
        rests.moves(p);
      }
    }
    return List.of(grades);
  }

  private GradedPotential grade(
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential,
      AlignedSweeps sweeps,
      double leftoverUv) {
    if (sweeps.discharge.size() < Math.min(settings.fewestSweeps(), FEWEST_ALIGNED)) {
      return ungraded(potential, null, null);
    }
    AcceptanceRules.Outcome rules = byRules(sweeps);
    ShapeEvidence evidence = evidence(sweeps);
    return sweeps.discharge.size() < settings.fewestSweeps()
        ? ungraded(potential, rules, evidence)
        : judge(units, unit, potential, measure(sweeps, leftoverUv), sweeps, rules, evidence);
  }

  private AcceptanceRules.Outcome byRules(AlignedSweeps sweeps) {
    double[] twin = AlignedSweeps.median(sweeps.causal);
    double pointNoise = signal.causalNoiseUv() * Math.sqrt(Math.PI / 2 / sweeps.causal.size());
    return new AcceptanceRules(settings)
        .judge(twin, sweeps.origin, pointNoise, signal.timeBase(), signal.channel().calibration());
  }

  private GradedPotential judge(
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential,
      ShapeMeasures shape,
      AlignedSweeps sweeps,
      AcceptanceRules.Outcome rules,
      ShapeEvidence evidence) {
    double snr = potential.shape().peakToPeakUv() / signal.noiseUv();
    boolean hasNeighbour = hasNeighbour(unit, potential);
    double probability = OneFibreProbability.of(shape);
    probability = hasNeighbour ? Math.min(probability, NEAR_PROBABILITY) : probability;
    Grade grade = grade(probability, snr);
    List<Finding> findings = new ArrayList<>();
    if (grade == Grade.COMPOSITE) {
      findings.add(GradeReasons.composite(probability));
    } else if (grade == Grade.DOUBTFUL) {
      findings.add(GradeReasons.doubtful(probability, snr));
    }
    add(findings, GradeReasons.variation(shape, grade));
    findings.addAll(rules.findings());
    add(findings, GradeReasons.unlike(shape));
    if (hasNeighbour) {
      findings.add(GradeReasons.neighbour());
    }
    ComponentDropOut.find(signal, units, unit, potential)
        .ifPresent(step -> findings.add(GradeReasons.dropOut(step)));
    RisingPhases.fan(sweeps, signal.forTiming().noiseUv(), signal.timeBase())
        .ifPresent(fan -> findings.add(GradeReasons.fan(fan)));
    return new GradedPotential(
        grade,
        rules.grade(),
        probability,
        rules.peakToPeakUv(),
        rules.riseTimeUs(),
        findings,
        evidence,
        shape);
  }

  private Grade grade(double probability, double snr) {
    return probability < settings.compositeProbability()
        ? Grade.COMPOSITE
        : probability < settings.singleProbability() || snr < settings.smallestSnr()
            ? Grade.DOUBTFUL
            : Grade.SINGLE_FIBRE;
  }

  private ShapeMeasures measure(AlignedSweeps sweeps, double leftoverUv) {
    ConditionedSignal timing = signal.forTiming();
    ShapeScan scan =
        new ShapeScan(
            new UndisturbedSweeps(
                SteadySize.of(sweeps.zeroPhase),
                sweeps.relativeSamples(),
                timing.noiseUv(),
                signal.timeBase()),
            sweeps.baseline,
            sweeps.widenings,
            timing.noiseUv(),
            timing.noiseAutocorrelation(sweeps.length),
            leftoverUv,
            signal.timeBase());
    ShapeScan.Place strongest = scan.strongest();
    double[] shape = AlignedSweeps.median(sweeps.zeroPhase);
    double pointNoise = timing.noiseUv() * Math.sqrt(Math.PI / 2 / sweeps.zeroPhase.size());
    double[] known =
        java.util.Arrays.stream(sweeps.relativeSamples()).filter(r -> !Double.isNaN(r)).toArray();
    boolean isAccompanied = known.length >= ShapeScan.LEAST_FOLLOWED;
    return new ShapeMeasures(
        scan.evidence(isAccompanied),
        scan.evidence(false),
        isAccompanied ? scan.followsSd() : null,
        likeness.misfitRatio(shape, steepest(shape, sweeps.origin), pointNoise),
        strongest.delayUs(),
        strongest.varianceRatio(),
        strongest.movingUs(),
        strongest.shareOfArrival(),
        isAccompanied
            ? signal.timeBase().durationUs(RobustStatistics.standardDeviation(known))
            : Double.NaN);
  }

  private int steepest(double[] shape, int origin) {
    int near = (int) signal.timeBase().lengthSamples(STEEP_US);
    double[] slope = Wave.slope(shape);
    int best = origin;
    for (int k = Math.max(0, origin - near); k < Math.min(slope.length, origin + near); k++) {
      best = Math.abs(slope[k]) > Math.abs(slope[best]) ? k : best;
    }
    return best;
  }

  private boolean hasNeighbour(TrackedUnit unit, TrackedPotential potential) {
    double near = signal.timeBase().lengthSamples(NEAR_US);
    double size = potential.shape().peakToPeakUv();
    return unit.potentials().stream()
        .anyMatch(
            other ->
                other != potential
                    && Math.abs(other.lagSamples() - potential.lagSamples()) < near
                    && other.shape().peakToPeakUv() > NEAR_SHARE * size);
  }

  private GradedPotential ungraded(
      TrackedPotential potential,
      AcceptanceRules.@Nullable Outcome rules,
      @Nullable ShapeEvidence evidence) {
    return new GradedPotential(
        Grade.UNGRADED,
        rules == null ? Grade.UNGRADED : rules.grade(),
        null,
        rules == null ? potential.shape().peakToPeakUv() : rules.peakToPeakUv(),
        rules == null ? null : (Double) rules.riseTimeUs(),
        List.of(GradeReasons.fewSweeps(potential.presentCount(), settings.fewestSweeps())),
        evidence,
        null);
  }

  private static void add(List<Finding> findings, @Nullable Finding finding) {
    if (finding != null) {
      findings.add(finding);
    }
  }

  private ShapeEvidence evidence(AlignedSweeps sweeps) {
    int step = Math.max(1, (int) Math.round(signal.timeBase().lengthSamples(20)));
    List<Double> mean = new ArrayList<>();
    List<Double> sd = new ArrayList<>();
    double[] column = new double[sweeps.zeroPhase.size()];
    for (int k = 0; k < sweeps.length; k += step) {
      for (int i = 0; i < column.length; i++) {
        column[i] = sweeps.zeroPhase.get(i)[k];
      }
      sd.add(Math.round(10 * RobustStatistics.standardDeviation(column)) / 10.0);
      mean.add(Math.round(10 * RobustStatistics.median(column)) / 10.0);
    }
    return new ShapeEvidence(
        -signal.timeBase().durationUs(sweeps.origin), signal.timeBase().durationUs(step), mean, sd);
  }
}
