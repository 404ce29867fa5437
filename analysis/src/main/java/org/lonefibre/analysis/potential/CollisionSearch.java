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
  private static final double LEAST_TRIED = 0.1;
  private static final double LEAST_SHARE = 0.3;
  private static final double MOST_LEFT = 0.5;
  private static final double LEAST_GAIN = 60;
  private static final double ABSENT = 10;
  private static final double APART_US = 400;

  private final PartLikelihood likelihood;
  private final CollisionImprovement improvement;
  private final double noiseUv;
  private final double noise;
  private final double apart;

  CollisionSearch(SweepFitter fitter, double noiseUv, double samplesPerUs) {
    this.likelihood = new PartLikelihood(fitter, noiseUv, samplesPerUs);
    this.improvement = new CollisionImprovement(likelihood, noiseUv);
    this.noiseUv = noiseUv;
    this.noise = noiseUv * noiseUv;
    this.apart = APART_US * samplesPerUs;
  }

  /** What a unit may put into the window: its usual sizes, and where lag 0 may lie. */
  record Candidate(int unit, UnitTrack track, double[] usual, boolean[] mayFire, int mostVolleys) {

    /** First sample at which lag 0 may lie; the length of the window if there is none. */
    int firstPlace() {
      int first = 0;
      while (first < mayFire.length && !mayFire[first]) {
        first++;
      }
      return first;
    }

    /** Sample behind the last at which lag 0 may lie; 0 if there is none. */
    int endOfPlaces() {
      int end = mayFire.length;
      while (end > 0 && !mayFire[end - 1]) {
        end--;
      }
      return end;
    }
  }

  /** A discharge that may be added, with the energy it would take away. */
  private record Trial(Volley volley, double gain) {}

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
      next.sort(Comparator.comparingDouble(likelihood::cost));
      ways = List.copyOf(next.subList(0, Math.min(WAYS, next.size())));
      if (!ways.isEmpty() && likelihood.cost(ways.get(0)) < likelihood.cost(best)) {
        best = ways.get(0);
      }
    }
    return best.parts().isEmpty() ? best : improvement.improve(best, window);
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
    double[] left = way.leftByUsualSizes(window);
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
        trials.add(new Trial(volley, gain[at]));
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
    int from = candidate.firstPlace();
    int end = candidate.endOfPlaces();
    double whole = 0;
    for (int p = 0; p < track.potentials && from < end; p++) {
      whole += candidate.usual[p] * candidate.usual[p] * track.shape[p].energy();
      addGains(left, candidate, p, from, end, sum);
    }
    double least = LEAST_TRIED * whole / noise;
    for (int k = 0; k < sum.length; k++) {
      if (!candidate.mayFire[k] || sum[k] < least) {
        sum[k] = Double.NEGATIVE_INFINITY;
      }
    }
    return sum;
  }

  /** Adds what one potential gains, wherever it lies within its reach, for some of the samples. */
  private void addGains(
      double[] left, Candidate candidate, int p, int from, int end, double[] sum) {
    PotentialShape shape = candidate.track.shape[p];
    double usual = candidate.usual[p];
    double energy = usual * usual * shape.energy();
    int lag = (int) Math.round(candidate.track.lag[p]);
    int reach = (int) Math.ceil(reach(candidate.track, p));
    int first = Math.max(0, from + lag - reach);
    int last = Math.min(left.length - 1, end - 1 + lag + reach);
    double[] own = shape.projectFrom(left, first, Math.max(0, last - first + 1));
    for (int k = 0; k < own.length; k++) {
      own[k] = (2 * usual * own[k] - energy) / noise;
    }
    for (int k = from; k < end; k++) {
      double most = -ABSENT;
      int to = Math.min(last, k + lag + reach);
      for (int j = Math.max(first, k + lag - reach); j <= to; j++) {
        most = Math.max(most, own[j - first]);
      }
      sum[k] += most;
    }
  }

  private static double reach(UnitTrack track, int potential) {
    return Math.max(2, 4 * track.spread[potential]);
  }

  /** An explanation with one discharge more, or null if the fit leaves nothing of it. */
  private @Nullable Explanation with(Explanation way, Trial trial, double[] window) {
    Volley volley = trial.volley;
    List<Part> others = way.withOddSizesExpected();
    double[] left = Explanation.asPlaced(others, window).left();
    List<Part> parts = new ArrayList<>(others);
    for (int p = 0; p < volley.track().potentials; p++) {
      Part part = likelihood.scanned(volley, p, left);
      parts.add(part == null ? Part.expected(volley, p) : part);
    }
    Explanation longer = Explanation.fitted(parts, window, noiseUv, likelihood::isLikely);
    double own =
        longer.parts().stream()
            .filter(part -> part.volley() == volley)
            .mapToDouble(part -> part.scale() * part.scale() * part.shape().energy())
            .sum();
    boolean isSeen = way.energy() - longer.energy() > LEAST_SHARE * own;
    return own > 0 && (isSeen || explainsMuch(way, longer, window.length)) ? longer : null;
  }

  /**
   * Whether a discharge takes away most of what sizes, places and noise do not explain: others may
   * have been bent to stand for it, so that it would be worth little by itself.
   */
  private boolean explainsMuch(Explanation way, Explanation longer, int samples) {
    double before = likelihood.cost(way);
    double after = likelihood.cost(longer);
    double usual = likelihood.usualCost(samples);
    return before - after > LEAST_GAIN && after - usual < MOST_LEFT * (before - usual);
  }
}
