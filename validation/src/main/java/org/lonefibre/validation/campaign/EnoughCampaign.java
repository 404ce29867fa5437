package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.reference.Enough;
import org.lonefibre.analysis.reference.SeenSignal;
import org.lonefibre.analysis.study.ProgressFact;
import org.lonefibre.analysis.study.ProgressFact.Certain;
import org.lonefibre.analysis.study.ProgressFact.Sequential;
import org.lonefibre.signal.random.RandomStream;

/**
 * How often the sequential test is wrong, and how many signals it takes, over simulated studies of
 * 20 signals.
 *
 * <p>Jitters are log-normal around a mean given as a share of the centre limit; a share of signals
 * may be raised besides. Limits as of cn-multicentre-2016, orbicularis oculi, voluntary: 31 and 45
 * us. Each row is a function of condition, seed and number of studies alone.
 */
public final class EnoughCampaign {

  /** What a simulated subject is. */
  public enum Truth {
    /** Far enough below both limits: saying beyond is a false alarm. */
    HEALTHY,
    /** Far enough beyond the centre limit: saying not beyond is a miss. */
    RAISED_CENTRE,
    /** Many single signals raised: saying not beyond is a miss. */
    RAISED_SINGLE,
    /** In between: no error rate is stated. */
    BETWEEN
  }

  /**
   * What a study is compared with.
   *
   * @param name what it is called in the table
   * @param centre what the centre limit is compared with
   * @param centreUs centre limit
   * @param individualUs limit of a single signal
   * @param usual signals of a complete study
   */
  public record Limits(
      String name, Enough.Centre centre, double centreUs, double individualUs, int usual) {

    /** Stalberg et al. 2016, orbicularis oculi, voluntary. */
    static final Limits OCULI = new Limits("", Enough.Centre.MEAN, 31, 45, 20);

    /** The same, 30 signals. */
    static final Limits THIRTY = new Limits("30 signals: ", Enough.Centre.MEAN, 31, 45, 30);

    /** Stalberg et al. 2016, extensor digitorum, voluntary, 15 signals a subject. */
    static final Limits EXTENSOR =
        new Limits("30/43 us, 15 signals: ", Enough.Centre.MEAN, 30, 43, 15);

    /** A single limit far above the centre: Bir and Kuruoglu 1996, stimulated. */
    static final Limits STIMULATED = new Limits("23/38 us: ", Enough.Centre.MEAN, 23, 38, 20);

    /** The first with the median. */
    static final Limits MEDIAN = new Limits("median: ", Enough.Centre.MEDIAN, 31, 45, 20);
  }

  /**
   * A condition.
   *
   * @param limits what is compared with
   * @param meanRatio mean jitter over the centre limit
   * @param variationRatio SD over mean
   * @param raisedProbability signals drawn about twice the individual limit instead
   */
  public record Condition(
      Limits limits,
      String name,
      Truth truth,
      double meanRatio,
      double variationRatio,
      double raisedProbability) {}

  /**
   * What one test said over all studies of a condition.
   *
   * @param condition the condition
   * @param test {@code centre-above-limit}, {@code outliers} or {@code either}
   * @param studies number of studies
   * @param beyond studies of which it said beyond
   * @param signals mean number of signals until it said something
   * @param certainWrong studies in which what was said to hold whatever follows did not
   */
  public record Row(
      Condition condition, String test, int studies, int beyond, double signals, int certainWrong) {

    /** Share of studies of which it said beyond, in percent. */
    public double beyondPercent() {
      return 100.0 * beyond / studies;
    }
  }

  private EnoughCampaign() {}

  /** The conditions of the published table. */
  public static List<Condition> conditions() {
    List<Condition> conditions = new ArrayList<>();
    conditions.add(
        new Condition(
            Limits.OCULI, "healthy, mean 70 % of the limit", Truth.HEALTHY, 0.7, 0.35, 0));
    addBounds(conditions, Limits.OCULI);
    conditions.add(
        new Condition(Limits.OCULI, "mean 90 % of the limit", Truth.BETWEEN, 0.9, 0.35, 0));
    conditions.add(new Condition(Limits.OCULI, "mean at the limit", Truth.BETWEEN, 1, 0.45, 0));
    conditions.add(
        new Condition(Limits.OCULI, "mean 120 % of the limit", Truth.BETWEEN, 1.2, 0.5, 0));
    conditions.add(
        new Condition(Limits.OCULI, "mean 180 % of the limit", Truth.RAISED_CENTRE, 1.8, 0.7, 0));
    conditions.add(
        new Condition(Limits.OCULI, "one signal in five raised", Truth.BETWEEN, 0.8, 0.35, 0.2));
    conditions.add(
        new Condition(
            Limits.OCULI, "half of the signals raised", Truth.RAISED_SINGLE, 0.8, 0.35, 0.5));
    for (Limits limits :
        List.of(Limits.EXTENSOR, Limits.STIMULATED, Limits.THIRTY, Limits.MEDIAN)) {
      addBounds(conditions, limits);
    }
    return conditions;
  }

  /** The hardest conditions for which a rate is stated. */
  private static void addBounds(List<Condition> conditions, Limits limits) {
    String name = limits.name();
    conditions.add(
        new Condition(
            limits, name + "healthy, mean 80 % of the limit", Truth.HEALTHY, 0.8, 0.35, 0));
    conditions.add(
        new Condition(limits, name + "mean 140 % of the limit", Truth.RAISED_CENTRE, 1.4, 0.6, 0));
    conditions.add(
        new Condition(
            limits, name + "35 % of signals raised", Truth.RAISED_SINGLE, 0.8, 0.35, 0.35));
  }

  /** Three rows a condition. */
  public static List<Row> run(Condition condition, long seed, int studies) {
    RandomStream random = RandomStream.of(seed).child(condition.name());
    Limits limits = condition.limits();
    int usual = limits.usual();
    Enough enough =
        new Enough(limits.centre(), limits.centreUs(), limits.individualUs(), 10, usual);
    Count centre = new Count(usual);
    Count outliers = new Count(usual);
    Count either = new Count(usual);
    for (int s = 0; s < studies; s++) {
      List<SeenSignal> signals = new ArrayList<>();
      for (int i = 0; i < usual; i++) {
        signals.add(new SeenSignal(jitterUs(condition, random), 0));
      }
      List<ProgressFact> facts = enough.after(signals).facts();
      ProgressFact first = facts.get(0);
      ProgressFact second = facts.get(1);
      // At half of the study, what is said to hold whatever follows is held against its end.
      List<ProgressFact> half = enough.after(signals.subList(0, usual / 2)).facts();
      centre.add(first, isWrong(half.get(0), first));
      outliers.add(second, isWrong(half.get(1), second));
      either.addEither(first, second);
    }
    return List.of(
        centre.row(condition, "centre-above-limit", studies),
        outliers.row(condition, "outliers", studies),
        either.row(condition, "either", studies));
  }

  private static boolean isWrong(ProgressFact said, ProgressFact end) {
    return said.certain() != Certain.OPEN && said.certain() != end.certain();
  }

  private static double jitterUs(Condition condition, RandomStream random) {
    boolean raised = random.happens(condition.raisedProbability());
    double mean =
        raised
            ? 2 * condition.limits().individualUs()
            : condition.meanRatio() * condition.limits().centreUs();
    double variance = Math.log1p(condition.variationRatio() * condition.variationRatio());
    return Math.max(
        5, mean * Math.exp(Math.sqrt(variance) * random.gaussianRatio() - variance / 2));
  }

  /** Counts over studies. */
  private static final class Count {

    private final int usual;
    private int beyond;
    private long signals;
    private int wrong;

    Count(int usual) {
      this.usual = usual;
    }

    void add(ProgressFact fact, boolean certainWrong) {
      beyond += fact.sequential() == Sequential.EXCEEDED ? 1 : 0;
      signals += after(fact);
      wrong += certainWrong ? 1 : 0;
    }

    /** Beyond as soon as one test says so; not beyond when both do. */
    void addEither(ProgressFact a, ProgressFact b) {
      boolean first = a.sequential() == Sequential.EXCEEDED;
      boolean second = b.sequential() == Sequential.EXCEEDED;
      beyond += first || second ? 1 : 0;
      signals +=
          first && second
              ? Math.min(after(a), after(b))
              : first ? after(a) : second ? after(b) : Math.max(after(a), after(b));
    }

    private int after(ProgressFact fact) {
      Integer after = fact.decidedAfterSignals();
      return after == null ? usual : after;
    }

    Row row(Condition condition, String test, int studies) {
      return new Row(condition, test, studies, beyond, (double) signals / studies, wrong);
    }
  }
}
