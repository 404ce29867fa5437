package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.ProgressFact;
import org.lonefibre.analysis.study.ProgressFact.Certain;
import org.lonefibre.analysis.study.ProgressFact.Sequential;
import org.lonefibre.analysis.study.StudyProgress;

/**
 * What can be said of a study before it is complete.
 *
 * <ol>
 *   <li>Certain: what holds whatever the signals still missing are. For the outlier rule by
 *       counting; for a centre limit because no jitter counts below {@value #LEAST_JITTER_US} us.
 *   <li>Sequential: Wald's probability ratio after each signal, from the {@value #FEWEST}th, ended
 *       at the usual number by the rule itself. Outliers: {@value #HEALTHY_SHARE} of signals
 *       against {@value #RAISED_SHARE}. Centre: logarithm of the jitter, mean at {@value
 *       #HEALTHY_RATIO} of the limit against {@value #RAISED_RATIO}.
 * </ol>
 *
 * <ul>
 *   <li>Nominal error rates 3 % and 7 % for outliers, 5 % and 4 % for the centre, so that what the
 *       last signal's rule adds stays within 5 % false alarms and 10 % misses at the conditions of
 *       docs/validation/enough.md.
 *   <li>A signal too blocked for a number counts as raised, and as twice the limit for the centre.
 *   <li>An ended test does not begin again: later signals do not turn it.
 * </ul>
 *
 * <p>Source: Wald 1947; the conditions are engineering choices. Thread rule: immutable, safe to
 * share.
 */
public final class Enough {

  private static final double LEAST_JITTER_US = 5;
  private static final int FEWEST = 5;
  private static final double HEALTHY_SHARE = 0.03;
  private static final double RAISED_SHARE = 0.35;
  private static final double HEALTHY_RATIO = 0.85;
  private static final double RAISED_RATIO = 1.4;
  private static final double HEALTHY_LOG_SD = 0.34;
  private static final double RAISED_LOG_SD = 0.55;
  private static final Bounds OUTLIER_BOUNDS = Bounds.of(0.03, 0.07);
  private static final Bounds CENTRE_BOUNDS = Bounds.of(0.05, 0.04);
  private static final double LOG_SD = (HEALTHY_LOG_SD + RAISED_LOG_SD) / 2;
  private static final double HEALTHY_LOG =
      Math.log(HEALTHY_RATIO) - HEALTHY_LOG_SD * HEALTHY_LOG_SD / 2;
  private static final double RAISED_LOG =
      Math.log(RAISED_RATIO) - RAISED_LOG_SD * RAISED_LOG_SD / 2;

  private final @Nullable Double centreUs;
  private final Centre centre;
  private final @Nullable Double individualUs;
  private final int outliersOverPercent;
  private final int usual;

  /** What the centre limit is compared with. */
  public enum Centre {
    /** The mean. */
    MEAN,
    /** The median. */
    MEDIAN
  }

  /**
   * Limits of a study under way.
   *
   * @param centre what the centre limit is compared with
   * @param centreUs limit of the centre; null for none
   * @param individualUs limit of a single signal; null for none
   * @param outliersOverPercent more than this many percent raised or blocking is a criterion
   * @param usual signals of a complete study
   */
  public Enough(
      Centre centre,
      @Nullable Double centreUs,
      @Nullable Double individualUs,
      int outliersOverPercent,
      int usual) {
    if (usual < 1) {
      throw new IllegalArgumentException("usual must be 1 signal or more, found " + usual);
    }
    this.centre = centre;
    this.centreUs = centreUs;
    this.individualUs = individualUs;
    this.outliersOverPercent = outliersOverPercent;
    this.usual = usual;
  }

  /** What can be said after signals in the order in which they were recorded. */
  public StudyProgress after(List<SeenSignal> signals) {
    List<ProgressFact> facts = new ArrayList<>();
    Double limit = centreUs;
    if (limit != null) {
      facts.add(centreFact(signals, limit));
    }
    facts.add(outlierFact(signals));
    return new StudyProgress(usual, signals.size(), facts);
  }

  private boolean isRaised(SeenSignal signal) {
    Double jitter = signal.jitterUs();
    return signal.blockedSweeps() > 0
        || jitter == null
        || (individualUs != null && jitter > individualUs);
  }

  private ProgressFact outlierFact(List<SeenSignal> signals) {
    int n = signals.size();
    int total = Math.max(usual, n);
    int needed = outliersOverPercent * total / 100 + 1;
    int raised = (int) signals.stream().filter(this::isRaised).count();
    int left = total - n;
    String what = individualUs == null ? "blocking" : "above the limit or blocking";
    String so = LimitFindings.text("%d of %d signals %s", raised, n, what);
    Certain certain =
        raised >= needed ? Certain.MET : raised + left < needed ? Certain.NOT_MET : Certain.OPEN;
    String text =
        left == 0
            ? LimitFindings.text(
                "%s: the rule is %s.", so, certain == Certain.MET ? "met" : "not met")
            : switch (certain) {
              case MET ->
                  LimitFindings.text("%s: of %d, the rule is met whatever follows.", so, total);
              case NOT_MET ->
                  LimitFindings.text("%s: of %d, the rule is not met whatever follows.", so, total);
              case OPEN ->
                  LimitFindings.text(
                      "%s: of %d, %d more among the next %d would meet the rule.",
                      so, total, needed - raised, left);
            };
    Ratio ratio = new Ratio(OUTLIER_BOUNDS);
    for (int i = 0; i < n && ratio.ended == Sequential.OPEN; i++) {
      boolean outlier = isRaised(signals.get(i));
      ratio.add(
          outlier
              ? Math.log(RAISED_SHARE / HEALTHY_SHARE)
              : Math.log((1 - RAISED_SHARE) / (1 - HEALTHY_SHARE)),
          i + 1);
      if (i + 1 == usual && ratio.ended == Sequential.OPEN) {
        long sofar = signals.subList(0, usual).stream().filter(this::isRaised).count();
        ratio.end(100 * sofar > (long) outliersOverPercent * usual, usual);
      }
    }
    return ratio.fact("outliers", certain, text);
  }

  private ProgressFact centreFact(List<SeenSignal> signals, double limitUs) {
    int n = signals.size();
    int total = Math.max(usual, n);
    int left = total - n;
    Certain certain;
    String text;
    if (centre == Centre.MEAN) {
      double sum = signals.stream().mapToDouble(s -> valueUs(s, limitUs)).sum();
      double least = (sum + left * LEAST_JITTER_US) / total;
      boolean met = left == 0 ? sum / Math.max(1, n) > limitUs : least > limitUs;
      certain = met ? Certain.MET : left == 0 ? Certain.NOT_MET : Certain.OPEN;
      text =
          n == 0
              ? "no signal yet"
              : left == 0
                  ? LimitFindings.text(
                      "mean of %d signals %s, limit %.1f us",
                      n, BesideLimit.text(sum / n, limitUs) + " us", limitUs)
                  : met
                      ? LimitFindings.text(
                          "mean of %d signals %s us: of %d, above %.1f us whatever follows",
                          n, BesideLimit.text(sum / n, limitUs), total, limitUs)
                      : LimitFindings.text(
                          "mean of %d signals %s us: of %d, above %.1f us if the next %d average"
                              + " over %.1f us",
                          n,
                          BesideLimit.text(sum / n, limitUs),
                          total,
                          limitUs,
                          left,
                          (limitUs * total - sum) / left);
    } else {
      int above = (int) signals.stream().filter(s -> valueUs(s, limitUs) > limitUs).count();
      certain =
          2 * above > total
              ? Certain.MET
              : 2 * (n - above) > total ? Certain.NOT_MET : Certain.OPEN;
      text =
          LimitFindings.text(
              "%d of %d signals above the limit of the median, %.1f us; of %d, more than half decide",
              above, n, limitUs, total);
    }
    Ratio ratio = new Ratio(CENTRE_BOUNDS);
    double slope = (RAISED_LOG - HEALTHY_LOG) / (LOG_SD * LOG_SD);
    for (int i = 0; i < n && ratio.ended == Sequential.OPEN; i++) {
      double log = Math.log(valueUs(signals.get(i), limitUs) / limitUs);
      ratio.add(slope * (log - (RAISED_LOG + HEALTHY_LOG) / 2), i + 1);
      if (i + 1 == usual && ratio.ended == Sequential.OPEN) {
        ratio.end(isCentreAbove(signals.subList(0, usual), limitUs), usual);
      }
    }
    return ratio.fact("centre-above-limit", certain, text + ".");
  }

  private boolean isCentreAbove(List<SeenSignal> signals, double limitUs) {
    double[] values = signals.stream().mapToDouble(s -> valueUs(s, limitUs)).sorted().toArray();
    int n = values.length;
    double value =
        centre == Centre.MEAN
            ? java.util.Arrays.stream(values).sum() / n
            : (values[(n - 1) / 2] + values[n / 2]) / 2;
    return value > limitUs;
  }

  private static double valueUs(SeenSignal signal, double limitUs) {
    Double jitter = signal.jitterUs();
    return jitter == null ? 2 * limitUs : jitter;
  }

  /** Where a test ends: Wald's bounds of the log ratio for nominal error rates. */
  private record Bounds(double upperRatio, double lowerRatio) {

    static Bounds of(double falseAlarmProbability, double missProbability) {
      return new Bounds(
          Math.log((1 - missProbability) / falseAlarmProbability),
          Math.log(missProbability / (1 - falseAlarmProbability)));
    }
  }

  /** The running sum of log ratios, and where it ended. */
  private static final class Ratio {

    private final Bounds bounds;
    private double sum;
    private Sequential ended = Sequential.OPEN;
    private @Nullable Integer after;

    Ratio(Bounds bounds) {
      this.bounds = bounds;
    }

    void add(double log, int signals) {
      sum += log;
      if (signals >= FEWEST && (sum >= bounds.upperRatio() || sum <= bounds.lowerRatio())) {
        end(sum >= bounds.upperRatio(), signals);
      }
    }

    void end(boolean exceeded, int signals) {
      ended = exceeded ? Sequential.EXCEEDED : Sequential.NOT_EXCEEDED;
      after = signals;
    }

    ProgressFact fact(String code, Certain certain, String text) {
      String said =
          switch (ended) {
            case OPEN -> "A sequential test (5 % false alarms, 10 % misses) is still open.";
            case EXCEEDED ->
                LimitFindings.text(
                    "A sequential test (5 %% false alarms, 10 %% misses) says beyond, after %d.",
                    after);
            case NOT_EXCEEDED ->
                LimitFindings.text(
                    "A sequential test (5 %% false alarms, 10 %% misses) says not beyond, after %d.",
                    after);
          };
      return new ProgressFact(code, certain, ended, after, text + " " + said);
    }
  }
}
