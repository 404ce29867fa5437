package org.lonefibre.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.analysis.discharge.EvokedFinder;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.grading.PotentialGrader;
import org.lonefibre.analysis.interval.IntervalBuilder;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.jitter.FollowedPotential;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.PatternSettings;
import org.lonefibre.analysis.jitter.StimulatedFindings;
import org.lonefibre.analysis.jitter.StimulatedPatterns;
import org.lonefibre.analysis.potential.FollowedUnits;
import org.lonefibre.analysis.potential.PotentialTracker;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.settings.StimulationSettings;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.sweep.StimulusFinder;
import org.lonefibre.analysis.sweep.StimulusTrain;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Severity;

/** The end-plates of a stimulated recording: stimuli, potentials, grades, latencies. */
final class StimulatedSite {

  private final AnalysisSettings settings;
  private final ConditionedSignal signal;
  private final List<Finding> findings;
  private final ResultShaper shaper;

  /**
   * @param findings what is noticed about the recording is added here
   */
  StimulatedSite(AnalysisSettings settings, ConditionedSignal signal, List<Finding> findings) {
    this.settings = settings;
    this.signal = signal;
    this.findings = findings;
    this.shaper = new ResultShaper(signal);
  }

  /** The end-plates, with potentials added where a person saw them. */
  StimulationResult analyse(
      Recording recording, SiteRequest request, List<Decision.OfSamples> changes)
      throws IOException {
    StimulusTrain train = withoutFirst(train(recording, request));
    findings.addAll(train.findings());
    double[] stimuli = new double[train.count()];
    for (int s = 0; s < stimuli.length; s++) {
      stimuli[s] = train.positionSamples(s);
    }
    StimulationSettings limits = settings.stimulation();
    if (stimuli.length < settings.discharge().fewestDischarges()) {
      return new StimulationResult(stimuli.length, null, null, List.of(), List.of(), null);
    }
    Discharges discharges =
        new EvokedFinder(
                settings.discharge(), limits.shortestLatencyMs(), limits.longestLatencyMs())
            .find(signal, stimuli);
    List<TrackedUnit> tracked = tracked(discharges, changes);
    if (tracked.isEmpty() || tracked.get(0).potentials().isEmpty()) {
      findings.add(
          Finding.caution(
              FindingCode.NO_DISCHARGES, "No potential follows the stimuli.", Evidence.NONE));
      return new StimulationResult(
          stimuli.length, rateHz(stimuli), null, List.of(), List.of(), null);
    }
    return result(train, stimuli, tracked.get(0));
  }

  private List<TrackedUnit> tracked(Discharges discharges, List<Decision.OfSamples> changes) {
    FollowedUnits followed =
        new PotentialTracker(settings.potential()).followEvoked(signal, discharges);
    for (Decision.OfSamples change : changes) {
      if (!(change instanceof Decision.Missed missed)) {
        throw new IllegalArgumentException(
            "after stimuli there is one series of responses: nothing to merge or split");
      }
      if (followed.units().isEmpty()) {
        throw new IllegalArgumentException("no potential follows the stimuli to begin with");
      }
      followed.add(0, signal.timeBase().lengthSamples(1000 * missed.offsetMs()));
    }
    return followed.units();
  }

  private StimulusTrain train(Recording recording, SiteRequest request) throws IOException {
    Channel marker = request.marker();
    if (marker != null) {
      return StimulusFinder.fromMarker(recording, marker, signal);
    }
    return request.stimulusTimesS().isEmpty()
        ? StimulusFinder.fromArtefact(signal)
        : StimulusFinder.fromAnnotations(request.stimulusTimesS(), signal);
  }

  private StimulusTrain withoutFirst(StimulusTrain train) {
    int dropped = settings.stimulation().droppedStimuli();
    if (dropped == 0 || train.count() <= dropped) {
      return train;
    }
    return train.without(
        dropped,
        Finding.note(
            FindingCode.DROPPED_STIMULI,
            String.format(Locale.ROOT, "The first %d stimuli were left out.", dropped),
            Evidence.NONE));
  }

  private StimulationResult result(StimulusTrain train, double[] stimuli, TrackedUnit unit) {
    List<GradedPotential> grades =
        new PotentialGrader(settings.grading(), signal).grade(List.of(unit), unit);
    IntervalBuilder intervals = new IntervalBuilder(signal.timeBase(), shaper::timeS);
    List<PotentialResult> potentials = new ArrayList<>();
    List<EndPlateResult> endPlates = new ArrayList<>();
    List<FollowedPotential> followed = new ArrayList<>();
    List<IntervalSeries> series = new ArrayList<>();
    double stimulusErrorUs = signal.timeBase().durationUs(train.errorSamples());
    for (int p = 0; p < unit.potentials().size(); p++) {
      TrackedPotential potential = unit.potentials().get(p);
      String id = String.valueOf((char) ('a' + p));
      IntervalSeries one = intervals.latencies(unit, potential, stimuli, stimulusErrorUs);
      series.add(one);
      potentials.add(shaper.potential(id, potential, 0, grades.get(p)));
      followed.add(new FollowedPotential(id, one, potentials.get(p).arrivalErrorUs()));
    }
    StimulatedFindings together =
        new StimulatedPatterns(settings.jitter(), PatternSettings.defaults()).judge(followed);
    findings.addAll(together.findings());
    for (int p = 0; p < potentials.size(); p++) {
      String id = potentials.get(p).id();
      List<Finding> own = together.ofPotentials().getOrDefault(id, List.of());
      Finding composite = composite(grades.get(p));
      Finding exclusion = composite == null ? exclusion(own) : composite;
      endPlates.add(
          ResultShaper.endPlate(
              id,
              series.get(p),
              new JitterEstimator(settings.jitter()).measure(series.get(p)),
              exclusion,
              own.stream().filter(finding -> finding != exclusion).toList()));
    }
    double last =
        unit.potentials().stream().mapToDouble(TrackedPotential::lagSamples).max().orElse(0);
    return new StimulationResult(
        stimuli.length,
        rateHz(stimuli),
        together.commonLatencyJitterUs(),
        potentials,
        endPlates,
        shaper.drawing(unit, stimuli, -0.5, signal.timeBase().durationMs(last) + 2.5));
  }

  private static @Nullable Finding exclusion(List<Finding> findings) {
    return findings.stream()
        .filter(finding -> finding.severity() == Severity.EXCLUSION)
        .findFirst()
        .orElse(null);
  }

  private static @Nullable Finding composite(GradedPotential graded) {
    return graded.grade() == Grade.COMPOSITE
        ? Finding.exclusion(
            FindingCode.COMPOSITE,
            "More than one fibre made this potential: the end-plate is left out of the"
                + " statistics.",
            Evidence.NONE)
        : null;
  }

  private @Nullable Double rateHz(double[] stimuli) {
    if (stimuli.length < 2) {
      return null;
    }
    // By the clock: what was not recorded between sweeps has passed all the same.
    double spanS = timeS(stimuli[stimuli.length - 1]) - timeS(stimuli[0]);
    return spanS > 0 ? (stimuli.length - 1) / spanS : null;
  }

  private double timeS(double position) {
    int segment = signal.segments().size() - 1;
    while (segment > 0 && position < signal.segments().get(segment).firstSample()) {
      segment--;
    }
    return shaper.timeS(position, segment);
  }
}
