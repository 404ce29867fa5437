package org.lonefibre.analysis.potential;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.potential.Explanation.Part;
import org.lonefibre.analysis.potential.Explanation.Volley;

/** How likely potentials are to have the sizes and places that an explanation gives them. */
final class PartLikelihood {

  private static final double SMALLEST_SIZE = 0.5;
  private static final double LARGEST_SIZE = 2.5;
  private static final double SHAPE_ERROR = 2;
  private static final double SIZE_SPREAD = 0.08;
  private static final double LEAST_SPREAD_US = 10;
  private static final double MOST_UNLIKELY = 40;

  private final SweepFitter fitter;
  private final double noise;
  private final double least;

  PartLikelihood(SweepFitter fitter, double noiseUv, double samplesPerUs) {
    this.fitter = fitter;
    this.noise = noiseUv * noiseUv;
    this.least = LEAST_SPREAD_US * samplesPerUs;
  }

  /**
   * How unlikely an explanation is: what it leaves over the noise (and the error of the shapes),
   * and how far sizes and places are from the usual ones.
   */
  double cost(Explanation way) {
    double sum = way.energy() / (SHAPE_ERROR * noise);
    for (Part part : way.parts()) {
      Volley volley = part.volley();
      double anchor = way.anchor(volley);
      double off = part.position() - anchor - volley.track().lag[part.potential()];
      double away = off / spread(volley.track(), part.potential());
      double size = (part.sizeRatio() - 1) / SIZE_SPREAD;
      sum += Math.min(MOST_UNLIKELY, away * away) + Math.min(MOST_UNLIKELY, size * size);
    }
    return sum;
  }

  /** What noise alone costs in so many samples. */
  double usualCost(int samples) {
    return samples / SHAPE_ERROR;
  }

  /** A potential of a discharge where it most likely is, or null if it explains nothing. */
  @Nullable Part scanned(Volley volley, int p, double[] left) {
    double expected = volley.anchor() + volley.track().lag[p];
    double range = fitter.range(volley.track(), p);
    double spread = spread(volley.track(), p);
    double usual = volley.usual()[p];
    PotentialShape shape = volley.track().shape[p];
    double best = expected;
    double most = Double.NEGATIVE_INFINITY;
    double[] likeness = shape.projectByHalves(left, expected - range, (int) (4 * range) + 1);
    for (int k = 0; k < likeness.length; k++) {
      double at = expected - range + 0.5 * k;
      double away = (at - expected) / spread;
      double gain = 2 * usual * likeness[k] - SHAPE_ERROR * noise * away * away;
      if (gain > most) {
        most = gain;
        best = at;
      }
    }
    double size = shape.project(left, best) / shape.energy();
    return size < SMALLEST_SIZE * usual ? null : Part.at(volley, p, best);
  }

  /** Whether a potential may have this size and place at all. */
  boolean isLikely(Part part) {
    return isPlausibleSize(part)
        && Math.abs(part.off()) <= 1.2 * fitter.range(part.volley().track(), part.potential());
  }

  /** Whether a potential may have this size. */
  boolean isPlausibleSize(Part part) {
    return part.sizeRatio() >= SMALLEST_SIZE && part.sizeRatio() <= LARGEST_SIZE;
  }

  /** Usual spread of a potential about its place, in samples; never less than a little. */
  double spread(UnitTrack track, int potential) {
    return Math.max(least, track.spread[potential]);
  }
}
