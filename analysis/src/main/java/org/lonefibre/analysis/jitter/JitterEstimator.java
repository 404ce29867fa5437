package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Finding;

/**
 * Measures jitter.
 *
 * <pre>MCD = sum |D(i) - D(i+1)| / number of differences</pre>
 *
 * <p>(Ekstedt, Nilsson, Stalberg 1974, J Neurol Neurosurg Psychiatry 37:526), over neighbouring
 * sweeps that are both present. MSD is the same after ordering by the inter-discharge interval
 * before each sweep (Stalberg and Trontelj, from memory). The timing floor is {@code 2/sqrt(pi)}
 * times the root of the mean squared error of an interval and of the stimulus; the corrected jitter
 * is {@code sqrt(jitter^2 - floor^2)}.
 *
 * <ul>
 *   <li>Under 20 differences: unmeasurable; under 50: a caution.
 *   <li>MCD/MSD over 1.25 with 50 differences or more of either kind: MSD is the jitter (voluntary
 *       only). Below 0.8: a trend, MCD stays.
 *   <li>Latencies have no MSD; for them a trend is an MCD clearly below the mean difference of all
 *       pairs of sweeps.
 *   <li>Two clusters are judged first; then neither trend, nor rate, nor low jitter is.
 *   <li>Low jitter needs MCD and MSD low, both raw or both with the floor taken off.
 *   <li>A jitter below its floor: corrected jitter 0, and a caution.
 *   <li>All intervals equal: MCD 0, interval 0 to 0, low jitter.
 * </ul>
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class JitterEstimator {

  /** SD of MCD over the mean difference of all pairs, times sqrt(n), Gaussian: by simulation. */
  private static final double TREND_SPREAD = 0.55;

  private static final double TREND_DEVIATIONS = 3.5;

  /** Gaussian quantile of a two-sided 95 % interval. */
  private static final double TWO_SIDED = 1.96;

  private final JitterSettings settings;

  /** An estimator that keeps to the settings. */
  public JitterEstimator(JitterSettings settings) {
    this.settings = settings;
  }

  /**
   * Measures one series.
   *
   * @return a {@link JitterMeasurement}, or an {@link UnmeasurableJitter} with its reason
   * @throws IllegalArgumentException if a number of the series is not finite, an error is negative,
   *     or sweep numbers do not rise
   */
  public JitterResult measure(IntervalSeries series) {
    FiniteIntervals.require(series);
    DifferenceChain consecutive = DifferenceChain.consecutive(series);
    JitterCounts counts = JitterCounts.of(series, consecutive.size());
    Double interDischarge = meanPrecedingIntervalMs(series);
    if (consecutive.size() < settings.minimumDifferences()) {
      Finding reason = JitterFindings.tooFewDifferences(counts, settings);
      List<Finding> findings = new ArrayList<>(List.of(reason));
      addBlocking(series, counts, findings);
      return new UnmeasurableJitter(counts, interDischarge, reason, findings, settings);
    }
    return new Judgement(series, consecutive, counts).measure(interDischarge);
  }

  /**
   * Standard error, as a share, of the scale of a jitter whose potentials overlap, as its findings
   * say it; 0 if they do not.
   */
  public static double scaleErrorRatio(List<Finding> findings) {
    return JitterFindings.scaleErrorRatio(findings);
  }

  private static @Nullable Double meanPrecedingIntervalMs(IntervalSeries series) {
    OptionalDouble mean =
        series.sweeps().stream()
            .map(SweepInterval::precedingIntervalMs)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .average();
    return mean.isPresent() ? mean.getAsDouble() : null;
  }

  private void addBlocking(IntervalSeries series, JitterCounts counts, List<Finding> findings) {
    Double percent = counts.blockingPercent();
    if (percent != null && percent > settings.highBlockingPercent()) {
      List<Integer> blocked =
          series.sweeps().stream()
              .filter(s -> s.state() == SweepState.BLOCKED)
              .map(SweepInterval::sweep)
              .toList();
      findings.add(JitterFindings.highBlocking(counts, percent, blocked));
    }
  }

  /** One series under judgement; findings gather in the order of judgement. */
  private final class Judgement {

    private final IntervalSeries series;
    private final DifferenceChain consecutive;
    private final DifferenceChain sorted;
    private final JitterCounts counts;
    private final PresentIntervals present;
    private final double consecutiveUs;
    private final @Nullable Double sortedUs;
    private final List<Finding> findings = new ArrayList<>();

    Judgement(IntervalSeries series, DifferenceChain consecutive, JitterCounts counts) {
      this.series = series;
      this.consecutive = consecutive;
      this.counts = counts;
      present = new PresentIntervals(series);
      sorted = DifferenceChain.sorted(series);
      consecutiveUs = consecutive.meanUs();
      sortedUs =
          series.kind() == IntervalSeries.Kind.STIMULUS_LATENCY || sorted.size() == 0
              ? null
              : sorted.meanUs();
    }

    JitterMeasurement measure(@Nullable Double interDischargeMs) {
      Optional<TwoClusters> clusters = TwoClusters.find(present, settings);
      clusters.ifPresent(c -> findings.add(JitterFindings.twoClusters(c, series.kind())));
      JitterStatistic statistic =
          clusters.isPresent() ? JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE : judgeOrder();
      DifferenceChain chain =
          statistic == JitterStatistic.MEAN_SORTED_DIFFERENCE ? sorted : consecutive;
      double jitter = chain.meanUs();
      double stimulus = series.stimulusErrorUs();
      double floor =
          DifferenceChain.GAUSSIAN_FACTOR
              * Math.sqrt(chain.meanSquaredErrorUs() + stimulus * stimulus);
      MeanDifferenceInterval interval = MeanDifferenceInterval.of(chain);
      double corrected = corrected(jitter, floor);
      double high = widened(corrected, corrected(interval.highUs(), floor));
      boolean low = clusters.isEmpty() && isLow(floor);
      if (low) {
        addLowJitter(jitter, corrected);
      }
      if (!low && jitter < settings.nearFloorRatio() * floor) {
        findings.add(JitterFindings.nearFloor(jitter, floor, high));
      }
      if (series.scaleErrorRatio() > 0) {
        findings.add(JitterFindings.overlappingShapes(series));
      }
      addTheRest();
      return new JitterMeasurement(
          counts,
          present.meanUs(),
          present.medianUs(),
          consecutiveUs,
          sortedUs,
          jitter,
          statistic,
          floor,
          corrected,
          widened(corrected, corrected(interval.lowUs(), floor)),
          high,
          interDischargeMs,
          findings,
          settings);
    }

    private JitterStatistic judgeOrder() {
      boolean enough = Math.min(consecutive.size(), sorted.size()) >= settings.ratioDifferences();
      if (sortedUs != null && enough) {
        if (consecutiveUs > settings.sortedRatio() * sortedUs) {
          findings.add(JitterFindings.rateDependent(consecutiveUs, sortedUs, settings));
          return JitterStatistic.MEAN_SORTED_DIFFERENCE;
        }
        if (consecutiveUs < settings.trendRatio() * sortedUs) {
          findings.add(
              JitterFindings.trend(consecutiveUs, sortedUs, "mean sorted-data difference"));
        }
        return JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE;
      }
      double ofAll = present.meanDifferenceOfAllUs();
      double least = 1 - TREND_DEVIATIONS * TREND_SPREAD / Math.sqrt(consecutive.size());
      if (consecutiveUs < Math.min(settings.trendRatio(), least) * ofAll) {
        findings.add(
            JitterFindings.trend(consecutiveUs, ofAll, "mean difference of all pairs of sweeps"));
      }
      return JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE;
    }

    private boolean isLow(double floorUs) {
      double limit = settings.lowJitterUs();
      double greater = sortedUs == null ? consecutiveUs : Math.max(consecutiveUs, sortedUs);
      return greater < limit
          || (floorUs <= settings.lowJitterFloorUs() && corrected(greater, floorUs) < limit);
    }

    private void addLowJitter(double jitterUs, double correctedUs) {
      findings.add(JitterFindings.lowJitter(jitterUs, correctedUs, series.kind(), settings));
      if (series.kind() == IntervalSeries.Kind.STIMULUS_LATENCY) {
        findings.add(JitterFindings.directStimulation(jitterUs));
      }
    }

    private void addTheRest() {
      if (series.kind() == IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL) {
        double distance = Math.abs(present.meanUs());
        if (distance > settings.longIntervalUs()) {
          findings.add(JitterFindings.longInterval(present.meanUs(), settings));
        } else if (distance < settings.shortIntervalUs()) {
          findings.add(JitterFindings.shortInterval(present.meanUs(), settings));
        }
      }
      addBlocking(series, counts, findings);
      if (counts.differences() < settings.fewDifferences()) {
        findings.add(JitterFindings.fewDifferences(counts, settings));
      }
    }

    /** An end of the interval with what is not known of the scale, both independent. */
    private double widened(double correctedUs, double endUs) {
      double scale = TWO_SIDED * series.scaleErrorRatio();
      if (scale == 0 || correctedUs == 0 || endUs == 0) {
        return endUs;
      }
      double reach = Math.log(endUs / correctedUs);
      return correctedUs * Math.exp(Math.copySign(Math.hypot(reach, scale), reach));
    }

    private double corrected(double jitterUs, double floorUs) {
      return Math.sqrt(Math.max(0, jitterUs * jitterUs - floorUs * floorUs));
    }
  }
}
