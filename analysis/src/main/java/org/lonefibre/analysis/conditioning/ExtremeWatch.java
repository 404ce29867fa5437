package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds clipping below the converter's rails, or with rails not known: the largest value of the
 * site comes again and again, three or more times in a row, and is reached and left in a step.
 *
 * <p>Engineering choices: two runs or more of at least three samples; the step beside each run is 2
 * % of the site's span or more (the top of a smooth wave is flat only where its sides are, too);
 * the extreme lies more than three times the usual range of 64 samples from the mean; and the span
 * is 100 converter steps or more.
 */
final class ExtremeWatch {

  private static final int FEWEST_SAMPLES = 3;
  private static final int FEWEST_RUNS = 2;
  private static final double STEP_RATIO = 0.02;
  private static final double BEYOND_USUAL = 3;
  private static final double FEWEST_STEPS = 100;

  private final int sign;
  private double extreme = Double.NEGATIVE_INFINITY;
  private final List<Run> runs = new ArrayList<>();
  private long runFrom = -1;
  private long runTo = -1;
  private double stepIn;

  private record Run(Stretch stretch, double step) {}

  /**
   * @param sign 1 to watch the largest value, -1 the smallest (values are turned over)
   */
  ExtremeWatch(int sign) {
    this.sign = sign;
  }

  /** Largest value so far, times the sign. */
  double extreme() {
    return extreme;
  }

  void look(double[] samples, int from, int to, long place) {
    for (int i = from; i < to; i++) {
      double x = sign * samples[i];
      long sample = place + (i - from);
      if (x > extreme) {
        extreme = x;
        runs.clear();
        runFrom = -1;
        runTo = -1;
      }
      if (x == extreme) {
        if (runTo != sample) {
          endRun();
          runFrom = sample;
          stepIn = i > from ? x - sign * samples[i - 1] : 0;
        }
        runTo = sample + 1;
      } else if (runFrom >= 0 && runTo == sample) {
        stepIn = Math.max(stepIn, extreme - x);
        endRun();
      }
    }
  }

  void endRun() {
    if (runFrom >= 0 && runTo - runFrom >= FEWEST_SAMPLES) {
      runs.add(new Run(new Stretch(runFrom, runTo), stepIn));
    }
    runFrom = -1;
    runTo = -1;
  }

  /**
   * @param centre mean of the site, times the sign
   * @param usual usual range of 64 samples
   * @param span largest less smallest value
   * @param resolution converter step; 0 if unknown
   */
  List<Stretch> clipped(double centre, double usual, double span, double resolution) {
    if (extreme - centre <= BEYOND_USUAL * usual || span < FEWEST_STEPS * resolution) {
      return List.of();
    }
    List<Stretch> steep =
        runs.stream().filter(run -> run.step >= STEP_RATIO * span).map(Run::stretch).toList();
    return steep.size() >= FEWEST_RUNS ? steep : List.of();
  }
}
