package org.lonefibre.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.Severity;

/**
 * Takes one site through the whole chain.
 *
 * <ul>
 *   <li>Below 10 kHz sampling, or with too little signal, nothing is measured; a finding says why.
 *   <li>Thread rule: safe; sites can be analysed in parallel.
 * </ul>
 */
public final class SiteAnalyser {

  private static final double SHORTEST_S = 0.2;

  private final AnalysisSettings settings;

  /** An analyser with these settings. */
  public SiteAnalyser(AnalysisSettings settings) {
    this.settings = settings;
  }

  /**
   * The result of one site.
   *
   * @throws IOException if the file cannot be read any more
   * @throws IllegalArgumentException if the stretch lies outside the recording
   */
  public RecordingResult analyse(Recording recording, SiteRequest request) throws IOException {
    return analyse(recording, request, List.of());
  }

  /**
   * The result of one site, measured as a person wants it.
   *
   * <ul>
   *   <li>A change of filter or trigger level holds for the whole measurement, the last of each;
   *       what is said of units before it was said of another measurement and is left out.
   *   <li>Units merged, split or given a potential are taken in their order, each named as after
   *       the one before.
   * </ul>
   *
   * @throws IllegalArgumentException also if a decision names what the site does not have, or what
   *     the recording does not bear out
   */
  public RecordingResult analyse(
      Recording recording, SiteRequest request, List<Decision.OfSamples> decisions)
      throws IOException {
    return decisions.isEmpty()
        ? analysed(recording, request, List.of())
        : PersonalSite.measure(settings, recording, request, decisions);
  }

  RecordingResult analysed(
      Recording recording, SiteRequest request, List<Decision.OfSamples> changes)
      throws IOException {
    long[] range = range(request);
    List<Finding> findings = new ArrayList<>(recording.findings());
    if (range[1] - range[0] < request.channel().timeBase().positionSamples(SHORTEST_S)) {
      findings.add(
          Finding.exclusion(
              FindingCode.SHORT_RECORDING,
              "There is almost no signal in this stretch: nothing can be measured.",
              Evidence.NONE));
      return result(request, recording, range, null, findings, List.of(), null);
    }
    ConditionedSignal signal =
        new Conditioner(settings.conditioning())
            .condition(recording, request.channel(), range[0], range[1]);
    findings.addAll(signal.findings());
    gaps(signal, findings);
    boolean tooSlow =
        findings.stream()
            .anyMatch(
                f ->
                    f.code() == FindingCode.SAMPLING_TOO_SLOW
                        && f.severity() == Severity.EXCLUSION);
    if (tooSlow) {
      return result(request, recording, range, signal, findings, List.of(), null);
    }
    if (request.activation() == Activation.STIMULATED) {
      StimulationResult stimulation =
          new StimulatedSite(settings, signal, findings).analyse(recording, request, changes);
      return result(request, recording, range, signal, findings, null, stimulation);
    }
    List<MotorUnitResult> units = new VoluntarySite(settings, signal).analyse(changes);
    if (units.isEmpty()) {
      findings.add(
          Finding.caution(
              FindingCode.NO_DISCHARGES,
              "No motor unit was found that fires repeatedly.",
              Evidence.NONE));
    }
    return result(request, recording, range, signal, findings, units, null);
  }

  /** First sample and end of the stretch within the channel. */
  private static long[] range(SiteRequest request) {
    Channel channel = request.channel();
    long first = -1;
    long end = -1;
    for (Segment segment : channel.segments()) {
      double from = channel.timeBase().positionSamples(request.startS() - segment.startS());
      double to = channel.timeBase().positionSamples(request.endS() - segment.startS());
      long low = segment.firstSample() + (long) Math.ceil(Math.max(0, from) - 1e-6);
      long high = segment.firstSample() + (long) Math.min(segment.sampleCount(), Math.ceil(to));
      if (high > low) {
        first = first < 0 ? low : first;
        end = high;
      }
    }
    if (first < 0) {
      return new long[] {0, 0};
    }
    return new long[] {first, end};
  }

  private static void gaps(ConditionedSignal signal, List<Finding> findings) {
    List<Evidence.Stretch> gaps = new ArrayList<>();
    for (int s = 1; s < signal.segments().size(); s++) {
      Segment before = signal.segments().get(s - 1);
      gaps.add(
          new Evidence.Stretch(
              before.startS() + signal.timeBase().timeS(before.sampleCount()),
              signal.segments().get(s).startS()));
    }
    if (!gaps.isEmpty()) {
      findings.add(
          Finding.note(
              FindingCode.GAP,
              String.format(
                  Locale.ROOT,
                  "Time jumps %d times; no interval is measured across a jump.",
                  gaps.size()),
              Evidence.ofStretches(gaps)));
    }
  }

  private RecordingResult result(
      SiteRequest request,
      Recording recording,
      long[] range,
      @Nullable ConditionedSignal signal,
      List<Finding> findings,
      @Nullable List<MotorUnitResult> units,
      @Nullable StimulationResult stimulation) {
    Channel channel = request.channel();
    boolean stimulated = request.activation() == Activation.STIMULATED;
    return new RecordingResult(
        request.file(),
        request.sha256(),
        recording.format(),
        request.site(),
        timeS(channel, range[0], false),
        timeS(channel, range[1], true),
        channel.label(),
        channel.timeBase().samplingRateHz(),
        channel.timeBase().timeS(range[1] - range[0]),
        signal == null || channel.calibration() == Calibration.NONE ? null : signal.noiseUv(),
        signal == null ? null : signal.record(),
        findings,
        stimulated ? null : units,
        stimulation != null || !stimulated
            ? stimulation
            : new StimulationResult(0, null, null, List.of(), List.of(), null));
  }

  private static double timeS(Channel channel, long sample, boolean isEnd) {
    for (Segment segment : channel.segments()) {
      boolean inside =
          sample >= segment.firstSample()
              && (isEnd ? sample <= segment.endSample() : sample < segment.endSample());
      if (inside) {
        return segment.startS() + channel.timeBase().timeS(sample - segment.firstSample());
      }
    }
    return 0;
  }
}
