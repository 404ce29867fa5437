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

  private static final double CENTRE_US = 31;
  private static final double INDIVIDUAL_US = 45;
  private static final int USUAL = 20;

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
   * A condition.
   *
   * @param meanRatio mean jitter over the centre limit
   * @param variationRatio SD over mean
   * @param raisedProbability signals drawn about twice the individual limit instead
   */
  public record Condition(
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
    return List.of(
        new Condition("healthy, mean 70 % of the limit", Truth.HEALTHY, 0.7, 0.35, 0),
        new Condition("healthy, mean 80 % of the limit", Truth.HEALTHY, 0.8, 0.35, 0),
        new Condition("mean at the limit", Truth.BETWEEN, 1, 0.45, 0),
        new Condition("mean 120 % of the limit", Truth.BETWEEN, 1.2, 0.5, 0),
        new Condition("mean 140 % of the limit", Truth.RAISED_CENTRE, 1.4, 0.6, 0),
        new Condition("mean 180 % of the limit", Truth.RAISED_CENTRE, 1.8, 0.7, 0),
        new Condition("one signal in five raised", Truth.BETWEEN, 0.8, 0.35, 0.2),
        new Condition("35 % of signals raised", Truth.RAISED_SINGLE, 0.8, 0.35, 0.35),
        new Condition("half of the signals raised", Truth.RAISED_SINGLE, 0.8, 0.35, 0.5));
  }

  /** Three rows a condition. */
  public static List<Row> run(Condition condition, long seed, int studies) {
    RandomStream random = RandomStream.of(seed).child(condition.name());
    Enough enough = new Enough(Enough.Centre.MEAN, CENTRE_US, INDIVIDUAL_US, 10, USUAL);
    Count centre = new Count();
    Count outliers = new Count();
    Count either = new Count();
    for (int s = 0; s < studies; s++) {
      List<SeenSignal> signals = new ArrayList<>();
      for (int i = 0; i < USUAL; i++) {
        signals.add(new SeenSignal(jitterUs(condition, random), 0));
      }
      List<ProgressFact> facts = enough.after(signals).facts();
      ProgressFact first = facts.get(0);
      ProgressFact second = facts.get(1);
      // At half of the study, what is said to hold whatever follows is held against its end.
      List<ProgressFact> half = enough.after(signals.subList(0, USUAL / 2)).facts();
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
    double mean = raised ? 2 * INDIVIDUAL_US : condition.meanRatio() * CENTRE_US;
    double variance = Math.log1p(condition.variationRatio() * condition.variationRatio());
    return Math.max(
        5, mean * Math.exp(Math.sqrt(variance) * random.gaussianRatio() - variance / 2));
  }

  /** Counts over studies. */
  private static final class Count {

    private int beyond;
    private long signals;
    private int wrong;

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

    private static int after(ProgressFact fact) {
      Integer after = fact.decidedAfterSignals();
      return after == null ? USUAL : after;
    }

    Row row(Condition condition, String test, int studies) {
      return new Row(condition, test, studies, beyond, (double) signals / studies, wrong);
    }
  }
}
