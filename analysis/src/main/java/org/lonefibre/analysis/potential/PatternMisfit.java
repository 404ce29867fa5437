package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * How badly the pattern of a unit, all its potentials with sizes and intervals as they usually are,
 * explains a stretch of signal: twice a negative log likelihood, but for a constant.
 */
final class PatternMisfit {

  private static final double SMALLEST_SPREAD = 0.02;
  private static final double LARGEST_TERM = 25;
  private static final double SMALLEST_SIZE = 0.45;
  private static final double FLOOR_US = 5;
  private static final int FEWEST = 5;

  private final SweepFitter fitter;
  private final double noiseUv;
  private final double floor;

  PatternMisfit(ConditionedSignal signal, SweepFitter fitter) {
    this.fitter = fitter;
    this.noiseUv = signal.noiseUv();
    this.floor = signal.timeBase().lengthSamples(FLOOR_US);
  }

  /**
   * What is usual in a unit.
   *
   * @param scale by discharge and potential
   * @param sizeSpread of each potential, over its usual size
   * @param missing what it costs that a potential is not there
   */
  record Usual(UnitTrack unit, double[][] scale, double[] sizeSpread, double[] missing) {

    static Usual of(UnitTrack unit) {
      double[][] scales = UsualSizes.of(unit);
      double[] spread = new double[unit.potentials];
      double[] missing = new double[unit.potentials];
      for (int p = 0; p < unit.potentials; p++) {
        double[] sizes = new double[unit.discharges];
        int n = 0;
        for (int d = 0; d < unit.discharges; d++) {
          if (unit.isPresent(d, p)) {
            sizes[n++] = unit.scale[d][p] / scales[d][p];
          }
        }
        double seen = n < FEWEST ? 0 : RobustStatistics.standardDeviation(Arrays.copyOf(sizes, n));
        spread[p] = Math.max(SMALLEST_SPREAD, seen);
        missing[p] = -2 * Math.log((unit.discharges - n + 0.5) / (unit.discharges + 1.0));
      }
      return new Usual(unit, scales, spread, missing);
    }

    /** Sizes near a place. */
    double[] near(double place) {
      return scale[Math.min(unit.firstAtOrAfter(place), unit.discharges - 1)];
    }
  }

  /**
   * The misfit of a unit that fires from a place of a window.
   *
   * @param start where the window lies, in samples of the channel
   */
  double of(Usual usual, double[] window, long start, double reference) {
    UnitTrack unit = usual.unit();
    double[] scale = usual.near(reference);
    JointFit fit = new JointFit(unit.shape.clone());
    double[] left = window.clone();
    int[] bySize =
        IntStream.range(0, unit.potentials)
            .boxed()
            .sorted((a, b) -> Double.compare(unit.shape[b].energy(), unit.shape[a].energy()))
            .mapToInt(Integer::intValue)
            .toArray();
    for (int p : bySize) {
      double at = fitter.scan(unit, p, left, reference - start + unit.lag[p]);
      double size = unit.shape[p].project(left, at) / unit.shape[p].energy();
      if (size > SMALLEST_SIZE * scale[p]) {
        fit.start(p, at, scale[p]);
        unit.shape[p].addTo(left, at, -scale[p]);
      }
    }
    fit.fit(window, noiseUv);
    double sum = SpikeMisfit.energy(fit.residual(), noiseUv);
    int zero = Arrays.stream(bySize).filter(fit::isActive).findFirst().orElse(0);
    for (int p = 0; p < unit.potentials; p++) {
      if (fit.isActive(p)) {
        double apart = fit.positionSamples(p) - fit.positionSamples(zero);
        double off = apart - unit.lag[p] + unit.lag[zero];
        sum += term((fit.scaleRatio(p) / scale[p] - 1) / usual.sizeSpread()[p]);
        sum += term(off / Math.hypot(floor, unit.spread[p]));
      } else {
        sum += usual.missing()[p];
      }
    }
    return sum;
  }

  private static double term(double deviation) {
    return Math.min(LARGEST_TERM, deviation * deviation);
  }
}
