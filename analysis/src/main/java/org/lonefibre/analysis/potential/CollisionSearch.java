package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.potential.Explanation.Part;
import org.lonefibre.analysis.potential.Explanation.Volley;

/**
 * Looks for the discharges that explain a stretch of signal best. Beginning with none, the
 * discharge that explains most of what is left is added and all are fitted together again; the best
 * few ways are followed side by side, since the largest step first is not always right.
 */
final class CollisionSearch {

  private static final int WAYS = 3;
  private static final int TRIALS = 3;
  private static final int ANCHORS = 2;
  private static final double LEAST_SHARE = 0.3;
  private static final double LEAST_GAIN = 60;
  private static final double ABSENT = 10;
  private static final double SMALLEST_SIZE = 0.5;
  private static final double LARGEST_SIZE = 2.5;
  private static final double LARGEST_CERTAIN = 1.15;
  private static final double SHAPE_ERROR = 2;
  private static final double SIZE_SPREAD = 0.08;
  private static final double LEAST_SPREAD_US = 10;
  private static final double STRAYED = 1.8;
  private static final double MOST_UNLIKELY = 40;
  private static final double APART_US = 400;

  private final SweepFitter fitter;
  private final double noiseUv;
  private final double noise;
  private final double apart;
  private final double least;

  CollisionSearch(SweepFitter fitter, double noiseUv, double samplesPerUs) {
    this.fitter = fitter;
    this.noiseUv = noiseUv;
    this.noise = noiseUv * noiseUv;
    this.apart = APART_US * samplesPerUs;
    this.least = LEAST_SPREAD_US * samplesPerUs;
  }

  /** What a unit may put into the window: its usual sizes, and where lag 0 may lie. */
  record Candidate(int unit, UnitTrack track, double[] usual, boolean[] mayFire, int mostVolleys) {}

  /** A discharge that may be added, with the energy it would take away. */
  private record Trial(Volley volley, double[] left, double gain) {}

  /** The best explanation found, of at most so many discharges. */
  Explanation search(double[] window, List<Candidate> candidates, int mostVolleys) {
    List<Explanation> ways = List.of(Explanation.asPlaced(List.of(), window));
    Explanation best = ways.get(0);
    for (int level = 0; level < mostVolleys && !ways.isEmpty(); level++) {
      List<Explanation> next = new ArrayList<>();
      for (Explanation way : ways) {
        for (Trial trial : trials(way, candidates, window)) {
          Explanation longer = with(way, trial, window);
          if (longer != null && isNew(longer, next)) {
            next.add(longer);
          }
        }
      }
      next.sort(Comparator.comparingDouble(this::cost));
      ways = List.copyOf(next.subList(0, Math.min(WAYS, next.size())));
      if (!ways.isEmpty() && cost(ways.get(0)) < cost(best)) {
        best = ways.get(0);
      }
    }
    return best.parts().isEmpty() ? best : settle(best, window);
  }

  private static boolean isNew(Explanation way, List<Explanation> others) {
    return others.stream()
        .noneMatch(
            other ->
                other.parts().size() == way.parts().size()
                    && Math.abs(other.energy() - way.energy()) < 1e-6 * way.energy());
  }

  private List<Trial> trials(Explanation way, List<Candidate> candidates, double[] window) {
    List<Trial> trials = new ArrayList<>();
    double[] left = way.leftBySizes(LARGEST_CERTAIN, window);
    for (Candidate candidate : candidates) {
      List<Volley> used =
          way.parts().stream()
              .map(Part::volley)
              .filter(volley -> volley.unit() == candidate.unit)
              .distinct()
              .toList();
      if (used.size() >= candidate.mostVolleys) {
        continue;
      }
      double[] gain = gains(left, candidate);
      for (int n = 0; n < ANCHORS; n++) {
        int at = highest(gain);
        if (at < 0) {
          break;
        }
        Volley volley = new Volley(candidate.unit, candidate.track, at, candidate.usual);
        trials.add(new Trial(volley, left, gain[at]));
        int from = (int) Math.max(0, at - apart);
        int to = (int) Math.min(gain.length, at + apart + 1);
        Arrays.fill(gain, from, to, Double.NEGATIVE_INFINITY);
      }
    }
    trials.sort(Comparator.comparingDouble(trial -> -trial.gain));
    return trials.subList(0, Math.min(TRIALS, trials.size()));
  }

  private static int highest(double[] gain) {
    int best = -1;
    for (int k = 0; k < gain.length; k++) {
      if (gain[k] > LEAST_GAIN && (best < 0 || gain[k] > gain[best])) {
        best = k;
      }
    }
    return best;
  }

  /** By how much a discharge at each sample would lower the energy, in units of the noise. */
  private double[] gains(double[] left, Candidate candidate) {
    UnitTrack track = candidate.track;
    double[] sum = new double[left.length];
    double whole = 0;
    for (int p = 0; p < track.potentials; p++) {
      double usual = candidate.usual[p];
      double energy = usual * usual * track.shape[p].energy();
      whole += energy;
      double[] own = new double[left.length];
      for (int k = 0; k < own.length; k++) {
        double product = usual * track.shape[p].project(left, k);
        own[k] = (2 * product - energy) / noise;
      }
      int lag = (int) Math.round(track.lag[p]);
      int reach = (int) Math.ceil(reach(track, p));
      for (int k = 0; k < sum.length; k++) {
        double most = -ABSENT;
        int from = Math.max(0, k + lag - reach);
        int to = Math.min(own.length - 1, k + lag + reach);
        for (int j = from; j <= to; j++) {
          most = Math.max(most, own[j]);
        }
        sum[k] += most;
      }
    }
    double least = LEAST_SHARE * whole / noise;
    for (int k = 0; k < sum.length; k++) {
      if (!candidate.mayFire[k] || sum[k] < least) {
        sum[k] = Double.NEGATIVE_INFINITY;
      }
    }
    return sum;
  }

  private static double reach(UnitTrack track, int potential) {
    return Math.max(2, 4 * track.spread[potential]);
  }

  /** An explanation with one discharge more, or null if the fit leaves nothing of it. */
  private @Nullable Explanation with(Explanation way, Trial trial, double[] window) {
    Volley volley = trial.volley;
    List<Part> parts = new ArrayList<>(way.parts());
    for (int p = 0; p < volley.track().potentials; p++) {
      Part part = scanned(volley, p, trial.left);
      parts.add(part == null ? Part.expected(volley, p) : part);
    }
    Explanation longer = Explanation.fitted(parts, window, noiseUv, this::isLikely);
    double own =
        longer.parts().stream()
            .filter(part -> part.volley() == volley)
            .mapToDouble(part -> part.scale() * part.scale() * part.shape().energy())
            .sum();
    boolean worthIt = own > 0 && way.energy() - longer.energy() > LEAST_SHARE * own;
    return worthIt ? longer : null;
  }

  /** A potential of a discharge where it most likely is, or null if it explains nothing. */
  private @Nullable Part scanned(Volley volley, int p, double[] left) {
    double expected = volley.anchor() + volley.track().lag[p];
    double range = fitter.range(volley.track(), p);
    double spread = spread(volley.track(), p);
    double usual = volley.usual()[p];
    PotentialShape shape = volley.track().shape[p];
    double best = expected;
    double most = Double.NEGATIVE_INFINITY;
    for (double at = expected - range; at <= expected + range; at += 0.5) {
      double away = (at - expected) / spread;
      double gain = 2 * usual * shape.project(left, at) - SHAPE_ERROR * noise * away * away;
      if (gain > most) {
        most = gain;
        best = at;
      }
    }
    double size = shape.project(left, best) / shape.energy();
    return size < SMALLEST_SIZE * usual ? null : Part.at(volley, p, best);
  }

  private double spread(UnitTrack track, int potential) {
    return Math.max(least, track.spread[potential]);
  }

  /**
   * How unlikely an explanation is: what it leaves over the noise (and the error of the shapes),
   * and how far sizes and places are from the usual ones.
   */
  private double cost(Explanation way) {
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

  private boolean isLikely(Part part) {
    return part.sizeRatio() >= SMALLEST_SIZE
        && part.sizeRatio() <= LARGEST_SIZE
        && Math.abs(part.off()) <= 1.2 * fitter.range(part.volley().track(), part.potential());
  }

  /** Looks once more for each part, and for those left out, with all others in their place. */
  private Explanation settle(Explanation found, double[] window) {
    Explanation best = found;
    for (Volley volley : found.parts().stream().map(Part::volley).distinct().toList()) {
      for (int p = 0; p < volley.track().potentials; p++) {
        int potential = p;
        List<Part> others =
            best.parts().stream()
                .filter(part -> part.volley() != volley || part.potential() != potential)
                .toList();
        Part again = scanned(volley, p, Explanation.asPlaced(others, window).left());
        boolean moved =
            again != null
                && best.parts().stream()
                    .noneMatch(
                        part ->
                            part.volley() == volley
                                && part.potential() == potential
                                && Math.abs(part.position() - again.position()) < 1);
        if (moved && again != null) {
          List<Part> parts = new ArrayList<>(others);
          parts.add(again);
          Explanation other = Explanation.fitted(parts, window, noiseUv, this::isLikely);
          best = cost(other) < cost(best) ? other : best;
        }
      }
    }
    return recalled(best, window);
  }

  /** Sends parts that strayed back to where they should be, all at once, and fits again. */
  private Explanation recalled(Explanation found, double[] window) {
    List<Part> parts = new ArrayList<>();
    boolean strayed = false;
    for (Part part : found.parts()) {
      Volley volley = part.volley();
      int p = part.potential();
      double expected = found.anchor(volley) + volley.track().lag[p];
      boolean far = Math.abs(part.position() - expected) > STRAYED * spread(volley.track(), p);
      parts.add(far ? Part.at(volley, p, expected) : part);
      strayed |= far;
    }
    if (!strayed) {
      return found;
    }
    Explanation again = Explanation.fitted(parts, window, noiseUv, this::isLikely);
    return !again.parts().isEmpty() && cost(again) < cost(found) ? again : found;
  }
}
