package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.jitter.EndPlateJitters;
import org.lonefibre.analysis.jitter.FollowedPotential;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.jitter.PatternSettings;
import org.lonefibre.analysis.jitter.UnitIntervals;
import org.lonefibre.analysis.jitter.UnitPatterns;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.EndPlateJitter;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** One motor unit of a voluntary recording, revised. */
final class RevisedUnit {

  private static final Set<FindingCode> OF_PATTERNS =
      EnumSet.of(
          FindingCode.TRIGGER_ABNORMAL, FindingCode.AXONAL_BLOCK, FindingCode.TRIGGER_BLOCKING);

  private final JitterSettings settings;
  private final List<double[]> gapsS;
  private final MotorUnitResult automatic;
  private final Signals signals;

  RevisedUnit(JitterSettings settings, List<double[]> gapsS, MotorUnitResult automatic) {
    this.settings = settings;
    this.gapsS = gapsS;
    this.automatic = automatic;
    this.signals = new Signals(automatic);
  }

  RevisedSignals signals() {
    return signals;
  }

  MotorUnitResult result() {
    if (automatic.pairs().isEmpty()) {
      return with(
          signals.potentials(), List.of(), automatic.endPlateJitters(), automatic.findings());
    }
    List<PotentialResult> potentials = signals.placed();
    List<PairResult> pairs = new ArrayList<>();
    List<FollowedPotential> followers = new ArrayList<>();
    for (PotentialResult potential : potentials) {
      if (potential.id().equals(signals.trigger)) {
        continue;
      }
      String id = signals.trigger + "-" + potential.id();
      RevisedSweeps sweeps = signals.sweeps().get(id);
      if (sweeps == null) {
        continue;
      }
      double doubt = signals.scaleErrorRatio(signals.trigger, potential.id());
      IntervalSeries series =
          sweeps.series(IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL, gapsS, 0, doubt);
      followers.add(new FollowedPotential(potential.id(), series, potential.arrivalErrorUs()));
      pairs.add(
          ResultShaper.pair(
              signals.trigger,
              potential.id(),
              series,
              new JitterEstimator(settings).measure(series),
              signals.exclusion(id, List.of(signals.trigger, potential.id())),
              RevisedSignals.noteOf(sweeps)));
    }
    UnitIntervals together =
        new UnitIntervals(signals.trigger, signals.errorUs(signals.trigger), followers);
    List<Finding> findings = new ArrayList<>(automatic.findings());
    findings.removeIf(finding -> OF_PATTERNS.contains(finding.code()));
    findings.addAll(new UnitPatterns(settings, PatternSettings.defaults()).judge(together));
    LargestBlocks.find(potentials, together).ifPresent(findings::add);
    return with(potentials, pairs, endPlates(together), findings);
  }

  private List<EndPlateJitter> endPlates(UnitIntervals together) {
    if (together.followers().size() < 2) {
      return List.of();
    }
    return new EndPlateJitters(settings)
        .separate(together).stream()
            .map(
                own ->
                    new EndPlateJitter(
                        own.potential(), own.jitterUs(), own.jitterLowUs(), own.jitterHighUs()))
            .sorted(Comparator.comparing(EndPlateJitter::potential))
            .toList();
  }

  private MotorUnitResult with(
      List<PotentialResult> potentials,
      List<PairResult> pairs,
      List<EndPlateJitter> endPlates,
      List<Finding> findings) {
    SweepDrawing drawing = automatic.drawing();
    return new MotorUnitResult(
        automatic.id(),
        automatic.discharges(),
        automatic.meanDischargeRateHz(),
        automatic.meanInterDischargeIntervalMs(),
        findings,
        potentials,
        pairs,
        endPlates,
        drawing == null ? null : signals.aligned(drawing));
  }

  /** The pairs of the unit under the trigger in force. */
  private static final class Signals extends RevisedSignals {

    private final MotorUnitResult unit;
    private final String automaticTrigger;
    private final Map<String, RevisedSweeps> automaticSweeps;
    private Map<String, RevisedSweeps> sweeps;
    private String trigger;

    Signals(MotorUnitResult unit) {
      super(unit.potentials());
      this.unit = unit;
      Map<String, RevisedSweeps> found = new LinkedHashMap<>();
      for (PairResult pair : unit.pairs()) {
        found.put(
            pair.id(),
            new RevisedSweeps(
                pair.intervals().stream()
                    .map(
                        s ->
                            new RevisedSweeps.Found(
                                s.sweep(), s.timeS(), s.intervalUs(), s.errorUs(), s.state()))
                    .toList()));
      }
      automaticSweeps = found;
      sweeps = found;
      automaticTrigger =
          unit.pairs().isEmpty()
              ? unit.potentials().get(0).id()
              : unit.pairs().get(0).triggerPotential();
      trigger = automaticTrigger;
    }

    @Override
    Map<String, RevisedSweeps> sweeps() {
      return sweeps;
    }

    @Override
    boolean trigger(Decision.Trigger decision) {
      if (!decision.unit().equals(unit.id())) {
        return false;
      }
      String wanted = decision.potential();
      if (unit.potentials().stream().noneMatch(p -> p.id().equals(wanted))) {
        return false;
      }
      if (!wanted.equals(trigger)) {
        sweeps =
            new Retrigger(automaticTrigger, errorUs(automaticTrigger), automaticSweeps)
                .to(wanted, trigger, sweeps);
        trigger = wanted;
      }
      return true;
    }

    /**
     * What overlap leaves unknown of the scale of a pair, from the automatic pairs that hold it.
     */
    double scaleErrorRatio(String one, String other) {
      return unit.pairs().stream()
          .filter(
              pair ->
                  Stream.of(pair.triggerPotential(), pair.pairedPotential())
                      .allMatch(id -> List.of(one, other, automaticTrigger).contains(id)))
          .mapToDouble(pair -> JitterEstimator.scaleErrorRatio(pair.findings()))
          .max()
          .orElse(0);
    }

    private double offsetMs() {
      return unit.potentials().stream()
          .filter(p -> p.id().equals(trigger))
          .mapToDouble(PotentialResult::offsetMs)
          .findFirst()
          .orElse(0);
    }

    /** Potentials with their time from the trigger in force. */
    List<PotentialResult> placed() {
      double offset = offsetMs();
      return potentials().stream()
          .map(
              p ->
                  offset == 0
                      ? p
                      : new PotentialResult(
                          p.id(),
                          p.offsetMs() - offset,
                          p.amplitudeUv(),
                          p.riseTimeUs(),
                          p.snr(),
                          p.arrivalErrorUs(),
                          p.presentSweeps(),
                          p.grade(),
                          p.gradeByTradeRules(),
                          p.singleFibreProbability(),
                          p.findings(),
                          p.drawing()))
          .toList();
    }

    @Nullable Double errorUs(String potential) {
      return unit.potentials().stream()
          .filter(p -> p.id().equals(potential))
          .map(PotentialResult::arrivalErrorUs)
          .filter(Objects::nonNull)
          .findFirst()
          .orElse(null);
    }

    /** The drawn sweeps, superimposed on the trigger in force. */
    SweepDrawing aligned(SweepDrawing drawing) {
      RevisedSweeps from = automaticSweeps.get(automaticTrigger + "-" + trigger);
      return from == null ? drawing : Retrigger.aligned(drawing, from, offsetMs());
    }
  }
}
