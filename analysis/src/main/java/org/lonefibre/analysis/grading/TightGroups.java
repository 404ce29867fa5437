package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Groups of sweeps that hold the same, but for noise. */
final class TightGroups {

  /** A single sweep brings noise of its own. */
  private static final double PAIR_NOISE = 1.4;

  private static final int ROUNDS = 5;

  private TightGroups() {}

  /**
   * A group.
   *
   * @param inside which sweeps belong to it
   * @param shape their mean
   * @param distance of all sweeps from it
   */
  record Group(boolean[] inside, double[] shape, double[] distance) {

    int size() {
      return count(inside);
    }
  }

  /**
   * All groups of so many sweeps or more.
   *
   * @param alike how far a sweep may be from the mean of its group
   */
  static List<Group> list(SweepDistance distance, List<double[]> rows, int fewest, double alike) {
    boolean[] met = new boolean[rows.size()];
    List<Group> groups = new ArrayList<>();
    for (int seed = 0; seed < met.length; seed++) {
      if (met[seed]) {
        continue;
      }
      Group group = from(distance, rows.get(seed), fewest, alike);
      if (group != null) {
        for (int i = 0; i < met.length; i++) {
          met[i] |= group.inside()[i];
        }
        groups.add(group);
      }
    }
    return groups;
  }

  private static @org.jspecify.annotations.Nullable Group from(
      SweepDistance distance, double[] seed, int fewest, double alike) {
    SweepDistance.Fit fit = distance.fit(seed);
    boolean[] inside = below(fit.distance(), alike + PAIR_NOISE);
    double[] shape = seed;
    for (int round = 0; round < ROUNDS; round++) {
      if (count(inside) < fewest) {
        return null;
      }
      shape = distance.mean(inside, fit.shiftSamples());
      fit = distance.fit(shape);
      boolean[] next = below(fit.distance(), alike);
      boolean stays = Arrays.equals(next, inside);
      inside = next;
      if (stays) {
        break;
      }
    }
    return count(inside) < fewest ? null : new Group(inside, shape, fit.distance());
  }

  private static boolean[] below(double[] distance, double most) {
    boolean[] below = new boolean[distance.length];
    for (int i = 0; i < below.length; i++) {
      below[i] = distance[i] <= most;
    }
    return below;
  }

  static int count(boolean[] group) {
    int count = 0;
    for (boolean inside : group) {
      count += inside ? 1 : 0;
    }
    return count;
  }
}
