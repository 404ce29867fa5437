package org.lonefibre.analysis.density;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Fibre density: the mean number of time-locked potentials, the trigger among them, over sites
 * chosen at random, each with the trigger at its largest.
 *
 * <ul>
 *   <li>Single potentials count as 1: it is never below 1.
 *   <li>Sites chosen for jitter have two potentials or more; they do not serve and must not be
 *       given.
 *   <li>95 % interval of the mean by Student's t, not below 1; none for fewer than two sites.
 *   <li>No limit is applied: the published ones are known from memory only.
 * </ul>
 *
 * <p>Source: AANEM handout (single-fibre electrode, 200 uV); 20 sites from memory.
 *
 * @param sites number of sites
 * @param potentialsPerSite the density
 * @param interval its 95 % interval
 * @param notes what to know about it
 */
public record FibreDensity(
    int sites, double potentialsPerSite, Optional<Interval> interval, List<String> notes) {

  private static final int USUAL_SITES = 20;
  private static final int MOST = 40;

  /**
   * An interval.
   *
   * @param low lower end, in potentials a site
   * @param high upper end
   */
  public record Interval(double low, double high) {}

  /** Copies the notes. */
  public FibreDensity {
    notes = List.copyOf(notes);
  }

  /**
   * The density of sites.
   *
   * @param potentials time-locked potentials at each site, the trigger among them
   * @throws IllegalArgumentException if there is no site, or a number outside 1 to 40
   */
  public static FibreDensity of(List<Integer> potentials) {
    if (potentials.isEmpty()) {
      throw new IllegalArgumentException("fibre density must have 1 site or more, found 0");
    }
    int n = potentials.size();
    double sum = 0;
    for (int count : potentials) {
      if (count < 1 || count > MOST) {
        throw new IllegalArgumentException(
            "potentials at a site must be 1 to " + MOST + ", found " + count);
      }
      sum += count;
    }
    double mean = sum / n;
    List<String> notes = new ArrayList<>();
    if (n < USUAL_SITES) {
      notes.add(String.format(Locale.ROOT, "%d sites; %d are usual", n, USUAL_SITES));
    }
    if (potentials.stream().noneMatch(count -> count == 1)) {
      notes.add("no site has a single potential: were they chosen at random?");
    }
    notes.add(
        "no limit is applied: published limits are from memory: read the printed source first");
    return new FibreDensity(n, mean, interval(potentials, mean), notes);
  }

  private static Optional<Interval> interval(List<Integer> potentials, double mean) {
    int n = potentials.size();
    if (n < 2) {
      return Optional.empty();
    }
    double squares = potentials.stream().mapToDouble(c -> (c - mean) * (c - mean)).sum();
    double half =
        new TDistribution(n - 1).inverseCumulativeProbability(0.975)
            * Math.sqrt(squares / (n - 1) / n);
    return Optional.of(new Interval(Math.max(1, mean - half), mean + half));
  }
}
