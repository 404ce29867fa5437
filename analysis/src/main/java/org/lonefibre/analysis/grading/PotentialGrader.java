package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.grading.GradedPotential.ShapeEvidence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Judges whether one fibre made a potential, from the rules of thumb of the trade ({@link
 * AcceptanceRules}) and from the constancy of its shape ({@link ShapeConstancy}).
 *
 * <ul>
 *   <li>Fewer sweeps than the settings ask for: ungraded. SNR under the settings: doubtful.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class PotentialGrader {

  private static final double BEFORE_US = 500;
  private static final double AFTER_US = 700;
  private static final double STEEPNESS = 3.5;
  private static final double NEAR_US = 300;
  private static final double NEAR_SHARE = 0.1;
  private static final int MOST_LAGS = 200;

  private final GradingSettings settings;

  /** A grader with these settings. */
  public PotentialGrader(GradingSettings settings) {
    this.settings = settings;
  }

  /**
   * The judgement of one potential of a unit.
   *
   * @param units all units of the site: what they put beside the potential is taken out
   */
  public GradedPotential grade(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential) {
    AlignedSweeps sweeps = new AlignedSweeps(signal, units, unit, potential, BEFORE_US, AFTER_US);
    if (sweeps.discharge.size() < Math.min(settings.fewestSweeps(), 4)) {
      return ungraded(potential, null);
    }
    double[] twin = AlignedSweeps.median(sweeps.causal);
    double pointNoise = signal.causalNoiseUv() * Math.sqrt(Math.PI / 2 / sweeps.causal.size());
    AcceptanceRules.Outcome rules =
        new AcceptanceRules(settings)
            .judge(
                twin, sweeps.origin, pointNoise, signal.timeBase(), signal.channel().calibration());
    ShapeEvidence evidence = evidence(signal, sweeps);
    if (sweeps.discharge.size() < settings.fewestSweeps()) {
      GradedPotential few = ungraded(potential, evidence);
      return new GradedPotential(
          Grade.UNGRADED,
          rules.grade(),
          null,
          rules.peakToPeakUv(),
          rules.riseTimeUs(),
          few.findings(),
          evidence);
    }
    return judge(signal, unit, potential, sweeps, rules, evidence);
  }

  private GradedPotential judge(
      ConditionedSignal signal,
      TrackedUnit unit,
      TrackedPotential potential,
      AlignedSweeps sweeps,
      AcceptanceRules.Outcome rules,
      ShapeEvidence evidence) {
    ShapeConstancy.Variation variation =
        ShapeConstancy.measure(
            sweeps.zeroPhase,
            AlignedSweeps.median(sweeps.zeroPhase),
            signal.forTiming().noiseUv(),
            signal.forTiming().noiseAutocorrelation(Math.min(MOST_LAGS, sweeps.length)),
            signal.timeBase());
    double snr = potential.shape().peakToPeakUv() / signal.noiseUv();
    double excess = excess(variation, sweeps.discharge.size());
    double probability = 1 / (1 + Math.exp(STEEPNESS * (excess - 1)));
    List<Finding> findings = new ArrayList<>(rules.findings());
    if (rules.grade() == Grade.COMPOSITE) {
      probability = Math.min(probability, 0.15);
    }
    if (hasNeighbour(signal, unit, potential)) {
      probability = Math.min(probability, 0.1);
      findings.add(
          Finding.caution(
              FindingCode.NO_BASELINE_RETURN,
              "Another potential of the unit arrives within 300 us: the two are not clearly"
                  + " separate.",
              Evidence.NONE));
    }
    Grade grade =
        probability < settings.compositeProbability()
            ? Grade.COMPOSITE
            : probability < settings.singleProbability() || snr < settings.smallestSnr()
                ? Grade.DOUBTFUL
                : Grade.SINGLE_FIBRE;
    ComponentDropOut.find(sweeps, signal.timeBase())
        .ifPresent(step -> findings.add(dropOutFinding(step, sweeps.discharge.size())));
    RisingPhases.fan(sweeps, signal.forTiming().noiseUv(), signal.timeBase())
        .ifPresent(fan -> findings.add(fanFinding(fan)));
    if (excess > 1) {
      findings.add(0, variationFinding(variation));
    }
    if (grade == Grade.COMPOSITE) {
      findings.add(
          0,
          Finding.exclusion(
              FindingCode.COMPOSITE,
              "More than one fibre made this potential: no jitter is quoted from it.",
              Evidence.of(new Quantity("probability of one fibre", probability, ""))));
    } else if (grade == Grade.DOUBTFUL) {
      findings.add(
          0,
          Finding.caution(
              FindingCode.DOUBTFUL_POTENTIAL,
              String.format(
                  Locale.ROOT,
                  "Whether one fibre made this potential cannot be decided (SNR %.0f,"
                      + " probability of one fibre %.2f).",
                  snr,
                  probability),
              Evidence.of(new Quantity("probability of one fibre", probability, ""))));
    }
    return new GradedPotential(
        grade,
        rules.grade(),
        probability,
        rules.peakToPeakUv(),
        rules.riseTimeUs(),
        findings,
        evidence);
  }

  /** Variation over what noise in so many sweeps and one fibre may show; 1 is the border. */
  private double excess(ShapeConstancy.Variation variation, int sweeps) {
    double chance = 1 + 2.2 / Math.sqrt(sweeps);
    double byNoise = variation.noiseRatio() / (1.15 * chance);
    double bySize = variation.variationRatio() / settings.toleratedVariationRatio();
    return Math.min(byNoise, Math.max(0.3, bySize));
  }

  private static Finding variationFinding(ShapeConstancy.Variation variation) {
    return Finding.caution(
        FindingCode.SHAPE_VARIANCE,
        String.format(
            Locale.ROOT,
            "The shape varies between sweeps %.1f times more than noise explains, most of all as a"
                + " second fibre about %.0f us %s would make it.",
            variation.noiseRatio(),
            Math.abs(variation.delayUs()),
            variation.delayUs() < 0 ? "earlier" : "later"),
        Evidence.of(
            new Quantity("variation over noise", variation.noiseRatio(), ""),
            new Quantity("delay", variation.delayUs(), "us")));
  }

  private static Finding fanFinding(RisingPhases.Fan fan) {
    return Finding.caution(
        FindingCode.NOT_PARALLEL,
        String.format(
            Locale.ROOT,
            "The rising phases are not parallel: the time between two levels varies by %.0f us from"
                + " sweep to sweep, noise would give %.0f us.",
            fan.spreadUs(),
            fan.noiseUs()),
        Evidence.of(
            new Quantity("variation of the phase", fan.spreadUs(), "us"),
            new Quantity("by noise", fan.noiseUs(), "us")));
  }

  private static Finding dropOutFinding(ComponentDropOut.Step step, int sweeps) {
    return Finding.caution(
        FindingCode.COMPONENT_DROP_OUT,
        String.format(
            Locale.ROOT,
            "The potential loses a step of %.0f %% of its size in %d of %d sweeps looked at: one of"
                + " several fibres in it failed, a block that hides in a composite.",
            100 * step.lossRatio(),
            step.discharges().size(),
            sweeps),
        new Evidence(
            List.of(),
            step.discharges().stream().map(d -> d + 1).toList(),
            List.of(new Quantity("size lost", 100 * step.lossRatio(), "%"))));
  }

  private static boolean hasNeighbour(
      ConditionedSignal signal, TrackedUnit unit, TrackedPotential potential) {
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
      TrackedPotential potential, @org.jspecify.annotations.Nullable ShapeEvidence evidence) {
    return new GradedPotential(
        Grade.UNGRADED,
        Grade.UNGRADED,
        null,
        potential.shape().peakToPeakUv(),
        null,
        List.of(
            Finding.caution(
                FindingCode.DOUBTFUL_POTENTIAL,
                String.format(
                    Locale.ROOT,
                    "Seen in %d sweeps; %d are needed to judge it.",
                    potential.presentCount(),
                    settings.fewestSweeps()),
                Evidence.NONE)),
        evidence);
  }

  private static ShapeEvidence evidence(ConditionedSignal signal, AlignedSweeps sweeps) {
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
