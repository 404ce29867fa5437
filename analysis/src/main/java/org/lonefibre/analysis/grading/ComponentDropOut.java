package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.special.Gamma;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.grading.SweepDistance.Second;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Whether one of the fibres in a potential failed in some sweeps. Fibres that move against each
 * other change the shape steadily; a fibre that fails leaves the rest alone, and the rest is always
 * the same.
 *
 * <ol>
 *   <li>Groups of five sweeps or more that hold the same but for noise ({@link TightGroups}).
 *   <li>A group counts if it stands by itself: few other sweeps lie just outside it, where a
 *       stretch of steady movement would have laid as many as inside and more, and nine tenths of
 *       them lie clearly outside.
 *   <li>What the others hold beyond the shape of the group must be one more fibre: the shape once
 *       more, at a free delay in each sweep, of about the same size in all of them, a fifth of the
 *       potential or more, and that explains them ({@link SweepDistance#seconds}). Less is asked of
 *       it the more surely the group stands by itself.
 *   <li>The potential must pass to and fro: a needle that moved passes once.
 * </ol>
 *
 * <p>The sizes and limits are engineering choices, by simulation.
 */
final class ComponentDropOut {

  private static final double PARTS_US = 500;
  private static final double SEPARATE_US = 300;
  private static final double ROW_BEFORE_US = 800;
  private static final double ROW_AFTER_US = 900;
  private static final double BEFORE_US = 350;
  private static final double AFTER_US = 450;
  private static final double FARTHEST_US = 400;
  private static final int LEAST_SWEEPS = 5;

  /** What is there more rarely is sooner a foreign potential that came by than a fibre. */
  private static final double LEAST_WHOLE_SHARE = 0.1;

  private static final int LEAST_PASSAGES = 4;
  private static final int LEAST_BASELINE = 20;
  private static final double[] JUST_OUTSIDE = {2, 3, 4, 6, 10};
  private static final double JUST_OUTSIDE_SHARE = 0.7;
  private static final double CLEARLY_OUTSIDE = 1.8;

  /** What neighbours leave when they are taken out widens a group: the second is for that. */
  private static final double[] ALIKE = {3, 6};

  private static final double CHANCE = 0.001;
  private static final double FEW_SHARE = 0.35;
  private static final double HARDLY_A_CHANCE = 1e-6;
  private static final double HARDLY_ANY_SHARE = 0.1;
  private static final double LEAST_SIZE = 0.2;
  private static final double MOST_SIZE = 1.4;
  private static final double MOST_LEFT = 0.22;
  private static final double SIZE_SPREAD = 0.38;
  private static final double SURE_SIZE_SPREAD = 0.55;
  private static final double SURE_MOST_LEFT = 0.35;
  private static final double DELAY_SPREAD_US = 200;

  private final List<double[]> rows;
  private final SweepDistance distance;
  private final int farthest = (int) Math.round((FARTHEST_US + 50) / SweepDistance.STEP_US);

  /**
   * Looks at some sweeps.
   *
   * @param rows the sweeps, aligned, with the parts of the potential left in
   * @param baseline stretches beside them, as long
   * @param origin sample at which they are aligned
   * @param noiseUv standard deviation of the noise, for sweeps with little baseline beside them
   */
  ComponentDropOut(
      List<double[]> rows, List<double[]> baseline, int origin, double noiseUv, TimeBase timeBase) {
    this.rows = rows;
    int length = rows.isEmpty() ? 0 : rows.get(0).length;
    int from = Math.max(0, origin - (int) timeBase.lengthSamples(BEFORE_US));
    int to = Math.min(length, origin + (int) timeBase.lengthSamples(AFTER_US));
    this.distance =
        new SweepDistance(rows, from, to, energy(baseline, from, to, noiseUv), timeBase);
  }

  /** Whether a group stands by itself. */
  private enum Aloneness {
    NONE,
    LIKELY,
    SURE
  }

  /**
   * A step.
   *
   * @param lossRatio size lost, over the whole size
   * @param lost sweeps in which it is lost, in the order looked at
   * @param sweeps how many were looked at
   */
  record Step(double lossRatio, List<Integer> lost, int sweeps) {}

  /**
   * The step of a potential, if there is one, with the discharges in which it is lost. Smaller
   * potentials of the unit close to it are taken to be parts of it, and one that is such a part of
   * a larger is not judged by itself. A part that is followed by itself and is told to block is not
   * told again.
   *
   * @param units all units of the site: what they put beside the potential is taken out
   */
  static Optional<Step> find(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential) {
    double separate = signal.timeBase().lengthSamples(SEPARATE_US);
    double size = potential.shape().peakToPeakUv();
    if (unit.potentials().stream()
        .anyMatch(
            one -> lagApart(one, potential) < separate && one.shape().peakToPeakUv() > size)) {
      return Optional.empty();
    }
    double near = signal.timeBase().lengthSamples(PARTS_US);
    List<TrackedPotential> parts =
        unit.potentials().stream()
            .filter(
                one ->
                    one == potential
                        || lagApart(one, potential) < near && one.shape().peakToPeakUv() < size)
            .toList();
    AlignedSweeps sweeps =
        AlignedSweeps.withParts(signal, units, unit, potential, ROW_BEFORE_US, ROW_AFTER_US, parts);
    return new ComponentDropOut(
            sweeps.zeroPhase,
            sweeps.baseline,
            sweeps.origin,
            signal.forTiming().noiseUv(),
            signal.timeBase())
        .find()
        .map(step -> of(step, sweeps.discharge))
        .filter(
            step ->
                parts.stream()
                    .filter(part -> lagApart(part, potential) >= separate)
                    .noneMatch(part -> blocks(part, step.lost())));
  }

  private static Step of(Step step, List<Integer> discharge) {
    return new Step(
        step.lossRatio(), step.lost().stream().map(discharge::get).toList(), step.sweeps());
  }

  private static double lagApart(TrackedPotential one, TrackedPotential other) {
    return Math.abs(one.lagSamples() - other.lagSamples());
  }

  /** Whether a potential is known to be absent in most of these discharges. */
  private static boolean blocks(TrackedPotential part, List<Integer> discharges) {
    long absent = discharges.stream().filter(d -> part.presence(d) == Presence.ABSENT).count();
    return 2 * absent > discharges.size();
  }

  /** The step in the sweeps, if there is one. */
  Optional<Step> find() {
    return rows.size() < 2 * LEAST_SWEEPS ? Optional.empty() : Optional.ofNullable(clearest());
  }

  private @Nullable Step clearest() {
    for (double alike : ALIKE) {
      Explained best = null;
      for (TightGroups.Group group : TightGroups.list(distance, rows, LEAST_SWEEPS, alike)) {
        Explained one = explained(group, aloneness(group, alike));
        if (one != null && (best == null || one.leftRatio() < best.leftRatio())) {
          best = one;
        }
      }
      if (best != null) {
        return best.step();
      }
    }
    return null;
  }

  private static Aloneness aloneness(TightGroups.Group group, double alike) {
    int inside = group.size();
    int n = group.inside().length;
    if (n - inside < Math.max(LEAST_SWEEPS, LEAST_WHOLE_SHARE * n)
        || passages(group.inside()) < LEAST_PASSAGES) {
      return Aloneness.NONE;
    }
    double[] outside = new double[n - inside];
    int k = 0;
    for (int i = 0; i < n; i++) {
      if (!group.inside()[i]) {
        outside[k++] = group.distance()[i];
      }
    }
    Arrays.sort(outside);
    if (quantile(outside, 0.1) < CLEARLY_OUTSIDE * alike) {
      return Aloneness.NONE;
    }
    Aloneness most = Aloneness.NONE;
    double mostFar = JUST_OUTSIDE_SHARE * quantile(outside, 0.5);
    for (double ratio : JUST_OUTSIDE) {
      double far = Math.max(1, Math.min(mostFar, ratio * alike));
      int between = (int) Arrays.stream(outside).filter(d -> d < far).count();
      // Steady movement by x leaves 1 + c x^2: so many more would lie within the wider border.
      double expected = Math.max(1e-9, inside * (Math.sqrt((far - 1) / (alike - 1)) - 1));
      double chance = Gamma.regularizedGammaQ(between + 1, expected);
      if (between <= HARDLY_ANY_SHARE * expected && chance < HARDLY_A_CHANCE) {
        return Aloneness.SURE;
      }
      most = between <= FEW_SHARE * expected && chance < CHANCE ? Aloneness.LIKELY : most;
    }
    return most;
  }

  /** A step, and how much of what it takes away a second fibre leaves unexplained. */
  private record Explained(Step step, double leftRatio) {}

  private @Nullable Explained explained(TightGroups.Group group, Aloneness aloneness) {
    if (aloneness == Aloneness.NONE) {
      return null;
    }
    boolean sure = aloneness == Aloneness.SURE;
    boolean[] others = new boolean[group.inside().length];
    List<Integer> lost = new ArrayList<>();
    for (int i = 0; i < others.length; i++) {
      others[i] = !group.inside()[i];
      if (group.inside()[i]) {
        lost.add(i);
      }
    }
    List<Second> seconds = distance.seconds(group.shape(), others, farthest);
    double[] size = seconds.stream().mapToDouble(Second::sizeRatio).sorted().toArray();
    double[] left = seconds.stream().mapToDouble(Second::leftRatio).sorted().toArray();
    double[] delay =
        seconds.stream().mapToDouble(one -> Math.abs(one.delayUs())).sorted().toArray();
    double usual = quantile(size, 0.5);
    boolean isOneMoreFibre =
        usual >= LEAST_SIZE
            && usual <= MOST_SIZE
            && quantile(size, 0.75) - quantile(size, 0.25)
                <= (sure ? SURE_SIZE_SPREAD : SIZE_SPREAD) * usual
            && quantile(left, 0.5) <= (sure ? SURE_MOST_LEFT : MOST_LEFT)
            && quantile(delay, 0.75) - quantile(delay, 0.25) <= DELAY_SPREAD_US
            && quantile(delay, 0.5) <= FARTHEST_US;
    return isOneMoreFibre
        ? new Explained(
            new Step(usual / (1 + usual), List.copyOf(lost), others.length), quantile(left, 0.5))
        : null;
  }

  private static double energy(List<double[]> rows, int from, int to, double noiseUv) {
    if (rows.size() < LEAST_BASELINE) {
      return noiseUv * noiseUv * (to - from);
    }
    double[] energy =
        rows.stream()
            .map(row -> Arrays.copyOfRange(row, from, to))
            .mapToDouble(row -> Wave.dot(row, row))
            .sorted()
            .toArray();
    return quantile(energy, 0.5);
  }

  private static double quantile(double[] sorted, double share) {
    return sorted[(int) Math.floor(share * (sorted.length - 1))];
  }

  private static int passages(boolean[] inside) {
    int passages = 0;
    for (int i = 1; i < inside.length; i++) {
      passages += inside[i] != inside[i - 1] ? 1 : 0;
    }
    return passages;
  }
}
