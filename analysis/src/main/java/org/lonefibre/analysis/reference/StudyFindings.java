package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The words of what is found about a study as a whole. */
final class StudyFindings {

  /** Skin over the muscle: a Norwegian method book. */
  private static final double COOLEST_DEG_C = 32;

  private StudyFindings() {}

  static List<Finding> of(
      StudyDeclaration study, StudyTally tally, LimitMatch match, StudySettings settings) {
    List<Finding> findings = new ArrayList<>(match.findings());
    coolMuscle(study.temperatureDegC()).ifPresent(findings::add);
    sharedTrigger(tally.signals()).ifPresent(findings::add);
    SamePairTwice.among(tally.signals())
        .or(() -> SamePairAgain.among(tally.signals()))
        .ifPresent(findings::add);
    blocksTogether(tally, match).ifPresent(findings::add);
    if (tally.withoutNumber() > 0) {
      findings.add(meanIsLowerBound(tally));
    }
    if (match instanceof LimitMatch.Matched matched) {
      closeCalls(tally, matched.row(), settings).ifPresent(findings::add);
      tooFewSignals(tally, matched.row()).ifPresent(findings::add);
    }
    return findings;
  }

  private static Optional<Finding> coolMuscle(@Nullable Double temperatureDegC) {
    return temperatureDegC == null || temperatureDegC >= COOLEST_DEG_C
        ? Optional.empty()
        : Optional.of(
            Finding.caution(
                FindingCode.COOL_MUSCLE,
                LimitFindings.text(
                    "The skin over the muscle had %.1f degrees Celsius; %.0f or more are asked for."
                        + " Cold slows the fibres, may raise the jitter of healthy end-plates and"
                        + " may hide failing ones. Warm the limb and record again.",
                    temperatureDegC, COOLEST_DEG_C),
                Evidence.of(new Quantity("skin temperature", temperatureDegC, "degC"))));
  }

  private static Optional<Finding> sharedTrigger(List<StudySignal> signals) {
    Map<String, List<StudySignal>> byTrigger = new LinkedHashMap<>();
    for (StudySignal signal : signals) {
      if (signal.signal() instanceof PairResult pair) {
        byTrigger
            .computeIfAbsent(
                signal.site() + "/" + signal.unit() + "/" + pair.triggerPotential(),
                key -> new ArrayList<>())
            .add(signal);
      }
    }
    String shared =
        byTrigger.values().stream()
            .filter(pairs -> pairs.size() > 1)
            .map(
                pairs -> pairs.stream().map(StudySignal::name).collect(Collectors.joining(" and ")))
            .collect(Collectors.joining("; "));
    if (shared.isEmpty()) {
      return Optional.empty();
    }
    long sites = signals.stream().map(StudySignal::site).distinct().count();
    return Optional.of(
        Finding.note(
            FindingCode.SHARED_TRIGGER,
            LimitFindings.text(
                "%d signals come from %s. Pairs that share a trigger are not independent: %s.",
                signals.size(), sites == 1 ? "one site" : sites + " sites", shared),
            Evidence.NONE));
  }

  private static Optional<Finding> blocksTogether(StudyTally tally, LimitMatch match) {
    List<StudySignal> together = tally.blockingOnlyWithOthers();
    if (together.isEmpty()) {
      return Optional.empty();
    }
    boolean voluntary = together.get(0).signal() instanceof PairResult;
    String names = together.stream().map(StudySignal::name).collect(Collectors.joining(", "));
    int left = tally.outliersByOwnBlocks();
    String consequence =
        match instanceof LimitMatch.Matched
            ? LimitFindings.text(
                "; otherwise %d of %d signals would be raised or blocking, and the limit set's rule"
                    + " %s.",
                left,
                tally.signals().size(),
                tally.isOutlierRuleMetBy(left) ? "would be met" : "would not be met")
            : ".";
    return Optional.of(
        Finding.caution(
            voluntary ? FindingCode.AXONAL_BLOCK : FindingCode.SUBLIMINAL_STIMULATION,
            LimitFindings.text(
                "Blocking in %s is found only in sweeps in which other potentials vanish too: %s, not"
                    + " the end-plate, is likely. It counts as blocking%s",
                names, voluntary ? "the axon" : "the stimulus or the axon", consequence),
            Evidence.of(new Quantity("signals blocking only with others", together.size(), ""))));
  }

  private static Finding meanIsLowerBound(StudyTally tally) {
    int count = tally.withoutNumber();
    return Finding.caution(
        FindingCode.MEAN_IS_LOWER_BOUND,
        LimitFindings.text(
            "%d of %d signals %s too much to be measured and %s as raised: the mean jitter is a"
                + " lower bound, the median ranks %s highest.",
            count,
            tally.signals().size(),
            count == 1 ? "blocks" : "block",
            count == 1 ? "counts" : "count",
            count == 1 ? "it" : "them"),
        Evidence.of(new Quantity("signals without a number", count, "")));
  }

  private static Optional<Finding> closeCalls(
      StudyTally tally, LimitRow row, StudySettings settings) {
    List<StudySignal> close = tally.closeCalls();
    if (close.isEmpty()) {
      return Optional.empty();
    }
    Quantity[] quantities =
        close.stream()
            .map(signal -> new Quantity(signal.name(), StudyTally.jitterUs(signal), "us"))
            .toArray(Quantity[]::new);
    return Optional.of(
        Finding.caution(
            FindingCode.CLOSE_CALL,
            LimitFindings.text(
                "Too close to call, within %.1f us of the individual limit of %.1f us: %s. They"
                    + " count by value; the criteria say what changes if they counted the other"
                    + " way.",
                settings.closeCallUs(),
                row.individualUs(),
                close.stream()
                    .map(
                        signal ->
                            signal.name()
                                + " "
                                + LimitFindings.text("%.1f us", StudyTally.jitterUs(signal)))
                    .collect(Collectors.joining(", "))),
            Evidence.of(quantities)));
  }

  private static Optional<Finding> tooFewSignals(StudyTally tally, LimitRow row) {
    Integer wanted = row.signalsPerSubject();
    int found = tally.signals().size();
    if (wanted == null || found >= wanted) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.caution(
            FindingCode.TOO_FEW_SIGNALS,
            LimitFindings.text(
                "%d signals; limit set %s was collected with %d a subject.",
                found, row.setId(), wanted),
            Evidence.of(new Quantity("signals", found, ""))));
  }
}
