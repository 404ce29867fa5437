package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitRow.CentreStatistic;
import org.lonefibre.analysis.reference.StudySignal.Acceptance;
import org.lonefibre.analysis.reference.StudySignal.Standing;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.StudyProgress;
import org.lonefibre.analysis.study.Verdict;

/**
 * The signals one judgement accepts, counted.
 *
 * <ul>
 *   <li>A signal that blocks too much to have a number counts as raised and blocking; the mean is
 *       then a lower bound, the median ranks it highest and may have no value.
 *   <li>Values are compared as they are, never rounded.
 * </ul>
 */
final class StudyTally {

  /** Pairs of a study where a set does not say: Tanhehco 2003. */
  private static final int USUAL_SIGNALS = 20;

  private final List<StudySignal> signals;
  private final List<StudySignal> numbered;
  private final int withoutNumber;
  private final double[] sortedUs;
  private final @Nullable LimitRow row;
  private final StudySettings settings;

  StudyTally(
      List<StudySignal> all,
      Acceptance acceptance,
      @Nullable LimitRow row,
      StudySettings settings) {
    this.row = row;
    this.settings = settings;
    signals =
        IndependentSignals.among(
            all, signal -> signal.standing(acceptance, settings) != Standing.LEFT_OUT);
    numbered =
        signals.stream()
            .filter(signal -> signal.standing(acceptance, settings) == Standing.COUNTED)
            .filter(signal -> signal.signal().jitterUs() != null)
            .toList();
    withoutNumber = signals.size() - numbered.size();
    sortedUs = numbered.stream().mapToDouble(StudyTally::jitterUs).sorted().toArray();
  }

  List<StudySignal> signals() {
    return signals;
  }

  /** Signals that count as raised without a number. */
  int withoutNumber() {
    return withoutNumber;
  }

  /** Jitters of the signals that have a number, ascending. */
  double[] valuesUs() {
    return sortedUs.clone();
  }

  @Nullable Double meanUs() {
    return sortedUs.length == 0 ? null : Arrays.stream(sortedUs).average().orElseThrow();
  }

  /** Null where there is no signal, or where the middle falls on one without a number. */
  @Nullable Double medianUs() {
    int n = signals.size();
    int upper = n / 2;
    if (n == 0 || upper >= sortedUs.length) {
      return null;
    }
    return n % 2 == 1 ? sortedUs[upper] : (sortedUs[upper - 1] + sortedUs[upper]) / 2;
  }

  int blocking() {
    return (int) signals.stream().filter(StudySignal::isBlocking).count();
  }

  /** Null if there is no individual limit. */
  @Nullable Integer aboveLimit() {
    Double limit = individualUs();
    return limit == null
        ? null
        : withoutNumber + (int) numbered.stream().filter(s -> jitterUs(s) > limit).count();
  }

  /** Null if there is no individual limit. */
  @Nullable Integer aboveLimitOrBlocking() {
    return individualUs() == null ? null : outliers(Closeness.AS_IT_IS);
  }

  /** Signals that block, but only together with others of their unit or site. */
  List<StudySignal> blockingOnlyWithOthers() {
    return numbered.stream().filter(StudySignal::isBlockingOnlyWithOthers).toList();
  }

  /** Signals raised or blocking if blocks together with others did not count. */
  int outliersByOwnBlocks() {
    return outliers(Closeness.AS_IT_IS, s -> s.isBlocking() && !s.isBlockingOnlyWithOthers());
  }

  /** Whether so many signals meet the set's rule; false without a set. */
  boolean isOutlierRuleMetBy(int outliers) {
    return row != null && 100L * outliers > (long) row.outliersOverPercent() * signals.size();
  }

  /** Signals within the width of a close call of the individual limit. */
  List<StudySignal> closeCalls() {
    return numbered.stream().filter(this::isClose).toList();
  }

  List<Criterion> criteria(StudyTally other, String otherName) {
    LimitRow limits = row;
    if (limits == null || signals.isEmpty()) {
      return List.of();
    }
    List<Criterion> criteria = new ArrayList<>();
    if (limits.centreStatistic() != CentreStatistic.NONE) {
      boolean met = isCentreMet();
      criteria.add(
          new Criterion(
              "centre-above-limit",
              met,
              met,
              centreText(limits) + " " + otherName + ": " + other.centreWords(limits) + "."));
    }
    boolean met = isOutlierRuleMet(Closeness.AS_IT_IS);
    criteria.add(
        new Criterion(
            "outliers",
            met,
            isOutlierRuleMet(met ? Closeness.CLOSE_ARE_BELOW : Closeness.CLOSE_ARE_ABOVE),
            outlierText(limits)
                + " "
                + otherName
                + ": "
                + other.outliers(Closeness.AS_IT_IS)
                + " of "
                + other.signals.size()
                + "."));
    return criteria;
  }

  /** What can be said after these signals; only with a set. */
  StudyProgress progress() {
    LimitRow limits = row;
    if (limits == null) {
      throw new IllegalStateException("progress is towards the limits of a set, found none");
    }
    Integer usual = limits.signalsPerSubject();
    return new Enough(
            limits.centreStatistic() == CentreStatistic.MEDIAN
                ? Enough.Centre.MEDIAN
                : Enough.Centre.MEAN,
            limits.centreUs(),
            limits.individualUs(),
            limits.outliersOverPercent(),
            usual == null ? USUAL_SIGNALS : usual)
        .after(signals.stream().map(this::seen).toList());
  }

  private SeenSignal seen(StudySignal signal) {
    Double jitter = signal.signal().jitterUs();
    return new SeenSignal(
        numbered.contains(signal) ? jitter : null, signal.signal().blockedSweeps());
  }

  Verdict verdict() {
    if (row == null || signals.isEmpty()) {
      return Verdict.NOT_COMPARED;
    }
    return isCentreMet() || isOutlierRuleMet(Closeness.AS_IT_IS)
        ? Verdict.LIMIT_EXCEEDED
        : Verdict.NO_LIMIT_EXCEEDED;
  }

  static double jitterUs(StudySignal signal) {
    return Objects.requireNonNull(signal.signal().jitterUs(), "a counted signal has a jitter");
  }

  private enum Closeness {
    AS_IT_IS,
    CLOSE_ARE_BELOW,
    CLOSE_ARE_ABOVE
  }

  private @Nullable Double individualUs() {
    return row == null ? null : row.individualUs();
  }

  private boolean isCentreMet() {
    if (row == null || row.centreStatistic() == CentreStatistic.NONE || signals.isEmpty()) {
      return false;
    }
    Double centre = row.centreStatistic() == CentreStatistic.MEAN ? meanUs() : medianUs();
    boolean beyondAllNumbers = centre == null && row.centreStatistic() == CentreStatistic.MEDIAN;
    return centre == null ? beyondAllNumbers : row.isCentreExceededBy(centre);
  }

  private boolean isOutlierRuleMet(Closeness closeness) {
    return isOutlierRuleMetBy(outliers(closeness));
  }

  /** Signals raised or blocking; only blocking where there is no individual limit. */
  private int outliers(Closeness closeness) {
    return outliers(closeness, StudySignal::isBlocking);
  }

  private int outliers(Closeness closeness, Predicate<StudySignal> blocks) {
    Double limit = individualUs();
    int count = withoutNumber;
    for (StudySignal signal : numbered) {
      boolean raised = false;
      if (limit != null) {
        raised =
            closeness != Closeness.AS_IT_IS && isClose(signal)
                ? closeness == Closeness.CLOSE_ARE_ABOVE
                : jitterUs(signal) > limit;
      }
      count += raised || blocks.test(signal) ? 1 : 0;
    }
    return count;
  }

  private boolean isClose(StudySignal signal) {
    Double limit = individualUs();
    return limit != null && Math.abs(jitterUs(signal) - limit) <= settings.closeCallUs();
  }

  private String centreText(LimitRow limits) {
    String above =
        limits.centreAbove() == LimitRow.Exceeding.GREATER ? "greater than" : "at or greater than";
    return LimitFindings.text(
        "%s; exceeded when %s %.1f us.",
        capitalised(centreWords(limits)), above, limits.centreUs());
  }

  private String centreWords(LimitRow limits) {
    String statistic = limits.centreStatistic().name().toLowerCase(Locale.ROOT);
    Double centre = limits.centreStatistic() == CentreStatistic.MEAN ? meanUs() : medianUs();
    if (centre == null) {
      return signals.isEmpty()
          ? "no signal"
          : statistic + " jitter beyond every number, signals that block too much rank highest";
    }
    boolean lowerBound = withoutNumber > 0 && limits.centreStatistic() == CentreStatistic.MEAN;
    Double limit = limits.centreUs();
    String shown =
        limit == null ? LimitFindings.text("%.1f", centre) : BesideLimit.text(centre, limit);
    return LimitFindings.text("%s jitter %s%s us", statistic, lowerBound ? "at least " : "", shown);
  }

  private String outlierText(LimitRow limits) {
    Double limit = limits.individualUs();
    String what =
        limit == null
            ? "blocking (the individual limit is blank)"
            : LimitFindings.text("above %.1f us or blocking", limit);
    return LimitFindings.text(
        "%d of %d signals %s; rule: %s.",
        outliers(Closeness.AS_IT_IS), signals.size(), what, limits.outlierRule());
  }

  private static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
