package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.jitter.FollowedPotential;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.JitterMeasurement;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.jitter.PatternSettings;
import org.lonefibre.analysis.jitter.StimulatedFindings;
import org.lonefibre.analysis.jitter.StimulatedPatterns;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The end-plates of a stimulated recording, revised. */
final class RevisedStimulation {

  private static final Set<FindingCode> OF_PATTERNS =
      EnumSet.of(
          FindingCode.COMMON_LATENCY,
          FindingCode.IRREGULAR_RATE,
          FindingCode.SUBLIMINAL_STIMULATION);

  private final JitterSettings settings;
  private final List<double[]> gapsS;
  private final StimulationResult automatic;
  private final Signals signals;

  RevisedStimulation(JitterSettings settings, List<double[]> gapsS, StimulationResult automatic) {
    this.settings = settings;
    this.gapsS = gapsS;
    this.automatic = automatic;
    this.signals = new Signals(automatic);
  }

  RevisedSignals signals() {
    return signals;
  }

  /**
   * @param findings those of the recording; what stimuli show together is judged anew in it
   */
  StimulationResult result(List<Finding> findings) {
    if (automatic.endPlates().isEmpty()) {
      return automatic;
    }
    List<PotentialResult> potentials = signals.potentials();
    List<FollowedPotential> followed = new ArrayList<>();
    for (EndPlateResult endPlate : automatic.endPlates()) {
      PotentialResult potential =
          potentials.stream()
              .filter(p -> p.id().equals(endPlate.potential()))
              .findFirst()
              .orElseThrow();
      followed.add(
          new FollowedPotential(
              endPlate.potential(), series(endPlate), potential.arrivalErrorUs()));
    }
    StimulatedFindings together =
        new StimulatedPatterns(settings, PatternSettings.defaults()).judge(followed);
    findings.removeIf(finding -> OF_PATTERNS.contains(finding.code()));
    findings.addAll(together.findings());
    List<EndPlateResult> endPlates = new ArrayList<>();
    for (int i = 0; i < followed.size(); i++) {
      EndPlateResult before = automatic.endPlates().get(i);
      IntervalSeries series = followed.get(i).intervals();
      List<Finding> more =
          new ArrayList<>(together.ofPotentials().getOrDefault(before.potential(), List.of()));
      more.addAll(RevisedSignals.noteOf(Objects.requireNonNull(signals.sweeps().get(before.id()))));
      endPlates.add(
          ResultShaper.endPlate(
              before.potential(),
              series,
              new JitterEstimator(settings).measure(series),
              signals.exclusion(before.id(), List.of(before.potential())),
              more));
    }
    return new StimulationResult(
        automatic.stimuli(),
        automatic.meanRateHz(),
        together.commonLatencyJitterUs(),
        potentials,
        endPlates,
        automatic.drawing());
  }

  private IntervalSeries series(EndPlateResult endPlate) {
    return Objects.requireNonNull(signals.sweeps().get(endPlate.id()))
        .series(
            IntervalSeries.Kind.STIMULUS_LATENCY,
            gapsS,
            stimulusErrorUs(endPlate),
            JitterEstimator.scaleErrorRatio(endPlate.findings()));
  }

  /** The error of a stimulus, from what it added to the floor of the automatic result. */
  private double stimulusErrorUs(EndPlateResult endPlate) {
    Double floor = endPlate.timingFloorUs();
    if (floor == null) {
      return 0;
    }
    IntervalSeries bare =
        signals.untouched(endPlate).series(IntervalSeries.Kind.STIMULUS_LATENCY, gapsS, 0, 0);
    return new JitterEstimator(settings).measure(bare) instanceof JitterMeasurement measured
        ? Math.sqrt(
            Math.max(0, floor * floor - measured.timingFloorUs() * measured.timingFloorUs())
                * Math.PI
                / 4)
        : 0;
  }

  private static final class Signals extends RevisedSignals {

    private final Map<String, RevisedSweeps> sweeps = new LinkedHashMap<>();

    Signals(StimulationResult stimulation) {
      super(stimulation.potentials());
      for (EndPlateResult endPlate : stimulation.endPlates()) {
        sweeps.put(endPlate.id(), untouched(endPlate));
      }
    }

    RevisedSweeps untouched(EndPlateResult endPlate) {
      return new RevisedSweeps(
          endPlate.latencies().stream()
              .map(
                  s ->
                      new RevisedSweeps.Found(
                          s.sweep(), s.timeS(), s.latencyUs(), s.errorUs(), s.state()))
              .toList());
    }

    @Override
    Map<String, RevisedSweeps> sweeps() {
      return sweeps;
    }

    @Override
    boolean trigger(Decision.Trigger decision) {
      return false;
    }
  }
}
