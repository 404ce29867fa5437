package org.lonefibre.workbench.site;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Pictures of sweeps beyond those kept with the result, laid on the same trigger.
 *
 * <ol>
 *   <li>The mean of the kept pictures near the trigger is the pattern.
 *   <li>How far the trigger lies from the time of a discharge is learned from the kept sweeps.
 *   <li>Each further sweep is moved to where the pattern fits best, to a fraction of a sample.
 * </ol>
 *
 * <p>For the eye alone: no number is taken from them.
 */
final class SweepPictures {

  private static final double NEAR_MS = 0.4;
  private static final double LEARN_MS = 12;
  private static final double SEARCH_MS = 0.5;

  /** A sweep and the time of its discharge. */
  record Sweep(int sweep, double timeS) {}

  private final ConditionedSignal signal;
  private final SweepDrawing kept;
  private final int step;
  private final int length;
  private final double[] pattern;
  private final int patternStart;

  SweepPictures(ConditionedSignal signal, SweepDrawing kept) {
    this.signal = signal;
    this.kept = kept;
    this.step =
        Math.max(1, (int) Math.round(signal.timeBase().lengthSamples(1000 * kept.stepMs())));
    this.length = kept.valuesUv().get(0).size();
    int zero = (int) Math.round(-kept.startMs() / kept.stepMs());
    int near = (int) Math.max(3, Math.round(NEAR_MS / kept.stepMs()));
    this.patternStart = Math.max(0, Math.min(length - 1, zero - near));
    int end = Math.max(patternStart + 1, Math.min(length, zero + near + 1));
    this.pattern = new double[end - patternStart];
    for (List<Double> row : kept.valuesUv()) {
      for (int k = 0; k < pattern.length; k++) {
        pattern[k] += row.get(patternStart + k) / kept.valuesUv().size();
      }
    }
  }

  /** Pictures of sweeps; those too near the edge of the signal are left out. */
  SweepDrawing of(List<Sweep> wanted, List<Sweep> all) {
    double usual = usualShift(all);
    List<Integer> sweeps = new ArrayList<>();
    List<List<Double>> rows = new ArrayList<>();
    for (Sweep sweep : wanted) {
      int at = kept.sweeps().indexOf(sweep.sweep());
      if (at >= 0) {
        sweeps.add(sweep.sweep());
        rows.add(kept.valuesUv().get(at));
        continue;
      }
      double start =
          bestStart(sweep.timeS(), usual, signal.timeBase().lengthSamples(1000 * SEARCH_MS));
      List<Double> row = Double.isNaN(start) ? List.of() : row(start);
      if (!row.isEmpty()) {
        sweeps.add(sweep.sweep());
        rows.add(row);
      }
    }
    return new SweepDrawing(kept.startMs(), kept.stepMs(), sweeps, rows);
  }

  /** First sample of the picture less that of the discharge, as the kept sweeps have it. */
  private double usualShift(List<Sweep> all) {
    double reach = signal.timeBase().lengthSamples(1000 * LEARN_MS);
    double expected = signal.timeBase().lengthSamples(1000 * kept.startMs());
    List<Double> shifts = new ArrayList<>();
    for (Sweep sweep : all) {
      if (kept.sweeps().contains(sweep.sweep()) && shifts.size() < 9) {
        double start = bestStart(sweep.timeS(), expected, reach);
        if (!Double.isNaN(start)) {
          shifts.add(start - position(sweep.timeS()));
        }
      }
    }
    return shifts.isEmpty()
        ? expected
        : RobustStatistics.median(shifts.stream().mapToDouble(Double::doubleValue).toArray());
  }

  private double position(double timeS) {
    for (Segment segment : signal.segments()) {
      double at =
          segment.firstSample() + signal.timeBase().positionSamples(timeS - segment.startS());
      if (at >= segment.firstSample() && at < segment.endSample()) {
        return at;
      }
    }
    return Double.NaN;
  }

  /** Where the picture must begin for the pattern to fit; not a number outside the signal. */
  private double bestStart(double timeS, double shift, double reach) {
    double centre = position(timeS) + shift;
    if (Double.isNaN(centre)) {
      return Double.NaN;
    }
    int steps = (int) Math.ceil(reach);
    long first = Math.round(centre) - steps + (long) patternStart * step;
    double[] window = new double[2 * steps + 1 + (pattern.length - 1) * step];
    if (!read(first, window)) {
      return Double.NaN;
    }
    double[] misfit = new double[2 * steps + 1];
    for (int s = 0; s < misfit.length; s++) {
      for (int k = 0; k < pattern.length; k++) {
        double away = window[s + k * step] - pattern[k];
        misfit[s] += away * away;
      }
    }
    int best = 0;
    for (int s = 1; s < misfit.length; s++) {
      best = misfit[s] < misfit[best] ? s : best;
    }
    double fraction = 0;
    if (best > 0 && best < misfit.length - 1) {
      double curve = misfit[best - 1] - 2 * misfit[best] + misfit[best + 1];
      fraction = curve > 0 ? 0.5 * (misfit[best - 1] - misfit[best + 1]) / curve : 0;
    }
    return Math.round(centre) - steps + best + fraction;
  }

  private List<Double> row(double start) {
    int count = (length - 1) * step + 1;
    double[] window = new double[count + 2 * FractionalDelay.HALF_TAPS + 2];
    long first = (long) Math.floor(start) - FractionalDelay.HALF_TAPS;
    if (!read(first, window)) {
      return List.of();
    }
    double[] fine = new double[count];
    new FractionalDelay().read(window, start - first, fine, count);
    List<Double> row = new ArrayList<>();
    for (int k = 0; k < length; k++) {
      row.add(Math.round(10 * fine[k * step]) / 10.0);
    }
    return row;
  }

  private boolean read(long first, double[] window) {
    for (Segment segment : signal.segments()) {
      if (first >= segment.firstSample() && first + window.length <= segment.endSample()) {
        signal.read(first, window, 0, window.length);
        return true;
      }
    }
    Arrays.fill(window, 0);
    return false;
  }
}
