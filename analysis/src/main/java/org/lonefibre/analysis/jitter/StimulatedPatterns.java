package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Evidence.Stretch;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * What the end-plates of one stimulated recording say together.
 *
 * <ul>
 *   <li>{@code subliminal-stimulation}: all end-plates block together, or one blocks in runs with
 *       longer latencies beside them.
 *   <li>{@code two-clusters}: each stimulus evokes one of two potentials, never both: one fibre
 *       that is reached two ways, as in an axon reflex.
 *   <li>{@code common-latency}: a part of the latency is common to all end-plates; it is the own
 *       jitter of the stimulus and axon, as {@link EndPlateJitters} separates it.
 *   <li>{@code irregular-rate}: the rate of stimulation changes.
 * </ul>
 *
 * <p>Direct stimulation is a matter of one end-plate: {@link JitterEstimator}.
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class StimulatedPatterns {

  private static final int LEAST_STIMULI = 10;

  private final EndPlateJitters endPlates;
  private final PatternSettings settings;

  /** Patterns by these settings; {@code jitter} says how many differences a pair needs. */
  public StimulatedPatterns(JitterSettings jitter, PatternSettings settings) {
    this.endPlates = new EndPlateJitters(jitter);
    this.settings = settings;
  }

  /**
   * Judges one recording.
   *
   * @param potentials the end-plates with their latencies, sweep numbers agreeing
   */
  public StimulatedFindings judge(List<FollowedPotential> potentials) {
    List<Finding> findings = new ArrayList<>();
    Map<String, List<Finding>> own = new LinkedHashMap<>();
    if (!potentials.isEmpty()) {
      irregularRate(potentials.get(0).intervals().sweeps()).ifPresent(findings::add);
    }
    boolean together = addJointBlocks(potentials, findings);
    if (!together) {
      for (FollowedPotential potential : potentials) {
        SubliminalStimulation.find(potential.intervals(), settings)
            .ifPresent(finding -> own.put(potential.potential(), List.of(finding)));
      }
      addAlternation(potentials, own);
    }
    return new StimulatedFindings(commonLatency(potentials, findings), findings, own);
  }

  private boolean addJointBlocks(List<FollowedPotential> potentials, List<Finding> findings) {
    TreeSet<Integer> common = new TreeSet<>();
    for (int i = 1; i < potentials.size(); i++) {
      Optional<JointBlocks> joint =
          JointBlocks.find(potentials.get(0).intervals(), potentials.get(i).intervals(), settings);
      if (joint.isEmpty()) {
        return false;
      }
      if (i == 1) {
        common.addAll(joint.get().sweeps());
      } else {
        common.retainAll(joint.get().sweeps());
      }
    }
    if (common.size() < settings.jointBlocks()) {
      return false;
    }
    findings.add(
        Finding.caution(
            FindingCode.SUBLIMINAL_STIMULATION,
            JitterFindings.text(
                "All %d end-plates block together in %d sweeps: the stimulus is probably below"
                    + " threshold at times, or the axon blocks. Raise the stimulus.",
                potentials.size(), common.size()),
            Evidence.ofSweeps(List.copyOf(common))));
    return true;
  }

  /** Two potentials of which each stimulus evokes one: one end-plate that is reached two ways. */
  private static void addAlternation(
      List<FollowedPotential> potentials, Map<String, List<Finding>> own) {
    for (int i = 0; i < potentials.size(); i++) {
      for (int j = i + 1; j < potentials.size(); j++) {
        FollowedPotential first = potentials.get(i);
        FollowedPotential second = potentials.get(j);
        Alternation.find(first.intervals(), second.intervals())
            .ifPresent(
                found -> {
                  Finding finding = found.finding(first.potential(), second.potential());
                  own.put(first.potential(), List.of(finding));
                  own.put(second.potential(), List.of(finding));
                });
      }
    }
  }

  private @Nullable Double commonLatency(
      List<FollowedPotential> potentials, List<Finding> findings) {
    if (potentials.size() < 2) {
      return null;
    }
    double stimulusErrorUs = potentials.get(0).intervals().stimulusErrorUs();
    OwnJitter common =
        endPlates.separate(new UnitIntervals("stimulus", stimulusErrorUs, potentials)).get(0);
    Double jitter = common.jitterUs();
    Double low = common.jitterLowUs();
    if (jitter != null && low != null && low >= settings.commonLatencyUs()) {
      findings.add(
          Finding.caution(
              FindingCode.COMMON_LATENCY,
              JitterFindings.text(
                  "A jitter of %.1f us is common to all %d end-plates: it comes from the stimulus or"
                      + " the axon and is part of each latency jitter.",
                  jitter, potentials.size()),
              Evidence.of(new Quantity("common latency jitter", jitter, "us"))));
    }
    return jitter;
  }

  private Optional<Finding> irregularRate(List<SweepInterval> sweeps) {
    List<Double> intervals = new ArrayList<>();
    List<Stretch> stretches = new ArrayList<>();
    for (int i = 1; i < sweeps.size(); i++) {
      if (sweeps.get(i).continuous()) {
        intervals.add(sweeps.get(i).timeS() - sweeps.get(i - 1).timeS());
        stretches.add(new Stretch(sweeps.get(i - 1).timeS(), sweeps.get(i).timeS()));
      }
    }
    if (intervals.size() < LEAST_STIMULI) {
      return Optional.empty();
    }
    double median = intervals.stream().sorted().toList().get(intervals.size() / 2);
    List<Stretch> odd = new ArrayList<>();
    for (int i = 0; i < intervals.size(); i++) {
      if (Math.abs(intervals.get(i) - median) > settings.rateToleranceRatio() * median) {
        odd.add(stretches.get(i));
      }
    }
    if (odd.size() < 2 || 100.0 * odd.size() < settings.ratePercent() * intervals.size()) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.caution(
            FindingCode.IRREGULAR_RATE,
            JitterFindings.text(
                "The rate of stimulation changes: %d of %d inter-stimulus intervals are more than"
                    + " %.0f %% away from their median of %.1f ms.",
                odd.size(), intervals.size(), 100 * settings.rateToleranceRatio(), 1000 * median),
            new Evidence(odd, List.of(), List.of())));
  }
}
