package org.lonefibre.validation.campaign;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.conditioning.ConditioningSettings;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.Channel;

/**
 * One recording measured by the chain and, at the true places, by a threshold and by the peak.
 *
 * @param chain errors of the chain's intervals
 * @param threshold errors of crossings of half the height, between samples on a line
 * @param peak errors of the peak, between samples on a parabola
 * @param floor timing floor as stated, times the number of its differences
 * @param trueFloor 1.128 times the real error, weighted alike
 * @param coverage whether the interval of the corrected jitter holds that of the law
 * @param sweeps discharges simulated
 */
record TimingTrial(
    ErrorSum chain,
    ErrorSum threshold,
    ErrorSum peak,
    double floor,
    double trueFloor,
    Coverage coverage,
    int sweeps) {

  static final TimingTrial NONE =
      new TimingTrial(ErrorSum.NONE, ErrorSum.NONE, ErrorSum.NONE, 0, 0, Coverage.NONE, 0);

  private static final double SAME_US = 150;
  private static final double NEAR_S = 0.01;
  private static final double AROUND_US = 400;

  static TimingTrial of(TimingCell cell, double noiseUv, RandomStream random) {
    TimingRecording recording = TimingRecording.of(cell, noiseUv, random);
    Channel channel = recording.channels().get(0);
    try {
      RecordingResult result =
          new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
              .analyse(recording, SiteRequest.whole("timing.edf", "", channel, "site"));
      ConditionedSignal signal =
          new Conditioner(ConditioningSettings.singleFibre()).condition(recording, channel);
      PairResult pair = pair(result, cell);
      ErrorSum chain = pair == null ? ErrorSum.NONE : chain(recording, cell, pair);
      double floor = 0;
      double trueFloor = 0;
      Double stated = pair == null ? null : pair.timingFloorUs();
      if (stated != null && chain.count() > 0) {
        floor = stated * chain.count();
        trueFloor = 2 / Math.sqrt(Math.PI) * chain.realUs() * chain.count();
      }
      return new TimingTrial(
          chain,
          plain(recording, signal, true),
          plain(recording, signal, false),
          floor,
          trueFloor,
          coverage(pair),
          TimingRecording.DISCHARGES);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  TimingTrial plus(TimingTrial other) {
    return new TimingTrial(
        chain.plus(other.chain),
        threshold.plus(other.threshold),
        peak.plus(other.peak),
        floor + other.floor,
        trueFloor + other.trueFloor,
        coverage.plus(other.coverage),
        sweeps + other.sweeps);
  }

  private static Coverage coverage(@Nullable PairResult pair) {
    Double value = pair == null ? null : pair.correctedJitterUs();
    return pair == null || value == null
        ? Coverage.NONE
        : Coverage.of(
            pair.correctedJitterLowUs(),
            value,
            pair.correctedJitterHighUs(),
            TimingRecording.pairJitterUs());
  }

  /** The pair whose mean interval is that of the recording, either way round. */
  private static @Nullable PairResult pair(RecordingResult result, TimingCell cell) {
    PairResult best = null;
    List<MotorUnitResult> units = result.motorUnits() == null ? List.of() : result.motorUnits();
    for (MotorUnitResult unit : units) {
      for (PairResult pair : unit.pairs()) {
        Double mean = pair.meanIntervalUs();
        if (mean != null
            && Math.abs(Math.abs(mean) - cell.distanceUs()) < SAME_US
            && (best == null || pair.presentSweeps() > best.presentSweeps())) {
          best = pair;
        }
      }
    }
    return best;
  }

  private static ErrorSum chain(TimingRecording recording, TimingCell cell, PairResult pair) {
    List<double[]> found = new ArrayList<>();
    for (SweepEntry sweep : pair.intervals()) {
      Double interval = sweep.intervalUs();
      Double stated = sweep.errorUs();
      int d = nearest(recording, sweep.timeS());
      if (interval != null && stated != null && d >= 0) {
        double real = 1e6 * (recording.secondS(d) - recording.firstS(d));
        found.add(new double[] {Math.abs(interval) - real, stated});
      }
    }
    return ErrorSum.of(
        found.stream().mapToDouble(f -> f[0]).toArray(),
        found.stream().mapToDouble(f -> f[1]).toArray());
  }

  private static int nearest(TimingRecording recording, double timeS) {
    for (int d = 0; d < TimingRecording.DISCHARGES; d++) {
      if (Math.abs(recording.firstS(d) - timeS) < NEAR_S) {
        return d;
      }
    }
    return -1;
  }

  private static ErrorSum plain(
      TimingRecording recording, ConditionedSignal signal, boolean byThreshold) {
    int n = TimingRecording.DISCHARGES;
    double[][] places = new double[2][n];
    for (int which = 0; which < 2; which++) {
      double[] mean = new double[0];
      double[][] windows = new double[n][];
      double[] at = new double[n];
      int half = (int) Math.ceil(signal.timeBase().lengthSamples(AROUND_US));
      for (int d = 0; d < n; d++) {
        double timeS = which == 0 ? recording.firstS(d) : recording.secondS(d);
        double position = signal.timeBase().positionSamples(timeS);
        long start = Math.round(position) - half;
        windows[d] = new double[2 * half + 1];
        signal.read(start, windows[d], 0, windows[d].length);
        at[d] = position - start;
        mean = mean.length == 0 ? new double[windows[d].length] : mean;
        for (int k = 0; k < mean.length; k++) {
          mean[k] += windows[d][k] / n;
        }
      }
      for (int d = 0; d < n; d++) {
        double found = byThreshold ? crossing(windows[d], mean, at[d]) : peak(windows[d], mean);
        places[which][d] = (found - at[d]) * signal.timeBase().durationUs(1);
      }
    }
    double[] errors = new double[n];
    for (int d = 0; d < n; d++) {
      errors[d] = places[1][d] - places[0][d];
    }
    return ErrorSum.of(Arrays.stream(errors).filter(Double::isFinite).toArray(), new double[0]);
  }

  /** Crossing of half the height between the mean's extremes, nearest to the true place. */
  private static double crossing(double[] window, double[] mean, double at) {
    double level = (Arrays.stream(mean).max().orElse(0) + Arrays.stream(mean).min().orElse(0)) / 2;
    double best = Double.NaN;
    for (int k = 0; k + 1 < window.length; k++) {
      double a = window[k] - level;
      double b = window[k + 1] - level;
      if (a * b <= 0 && a != b) {
        double place = k + a / (a - b);
        if (Double.isNaN(best) || Math.abs(place - at) < Math.abs(best - at)) {
          best = place;
        }
      }
    }
    return best;
  }

  /** The extreme that is the larger in the mean. */
  private static double peak(double[] window, double[] mean) {
    double high = Arrays.stream(mean).max().orElse(0);
    double low = Arrays.stream(mean).min().orElse(0);
    double sign = high > -low ? 1 : -1;
    int best = 1;
    for (int k = 1; k + 1 < window.length; k++) {
      best = sign * window[k] > sign * window[best] ? k : best;
    }
    double curvature = window[best - 1] - 2 * window[best] + window[best + 1];
    double shift = curvature == 0 ? 0 : 0.5 * (window[best - 1] - window[best + 1]) / curvature;
    return best + Math.max(-1, Math.min(1, shift));
  }
}
