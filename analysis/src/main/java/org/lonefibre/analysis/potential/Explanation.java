package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * One way to explain a stretch of signal: discharges of some units, their potentials placed all at
 * once by least squares.
 *
 * <ul>
 *   <li>Thread rule: immutable once made.
 * </ul>
 *
 * @param parts the potentials, as placed
 * @param left what is left of the window
 * @param energy sum of squares of what is left
 */
record Explanation(List<Part> parts, double[] left, double energy) {

  private static final double SIZE_SPREAD = 0.1;
  private static final double SMALLEST_USUAL = 0.75;
  private static final double LARGEST_USUAL = 1.25;

  /**
   * A discharge of a unit that an explanation asks for.
   *
   * @param unit index of the unit
   * @param anchor lag 0 in samples of the window
   * @param usual usual size of each potential
   */
  record Volley(int unit, UnitTrack track, double anchor, double[] usual) {}

  /** One potential of a discharge, position in samples of the window. */
  record Part(Volley volley, int potential, double position, double scale, double widening) {

    /** Where the potential should be, with its usual size. */
    static Part expected(Volley volley, int potential) {
      return at(volley, potential, volley.anchor + volley.track.lag[potential]);
    }

    /** A potential at a position with its usual size. */
    static Part at(Volley volley, int potential, double position) {
      return new Part(volley, potential, position, volley.usual[potential], 1);
    }

    PotentialShape shape() {
      return volley.track.shape[potential];
    }

    double sizeRatio() {
      return scale / volley.usual[potential];
    }

    /** Distance from where it should be, in samples. */
    double off() {
      return position - volley.anchor - volley.track.lag[potential];
    }
  }

  /** These parts as they are. */
  static Explanation asPlaced(List<Part> parts, double[] window) {
    double[] left = window.clone();
    for (Part part : parts) {
      part.shape().addTo(left, part.position, -part.scale);
    }
    return of(parts, left);
  }

  /**
   * These parts, fitted to a window; those that the fit makes unlikely are left out, one after the
   * other.
   */
  static Explanation fitted(
      List<Part> wanted, double[] window, double noiseUv, Predicate<Part> isLikely) {
    List<Part> parts = wanted;
    while (true) {
      JointFit joint =
          new JointFit(parts.stream().map(Part::shape).toArray(PotentialShape[]::new), SIZE_SPREAD);
      for (int i = 0; i < parts.size(); i++) {
        Part part = parts.get(i);
        joint.start(i, part.position, part.volley.usual[part.potential]);
      }
      joint.fit(window, noiseUv);
      List<Part> placed = new ArrayList<>();
      for (int i = 0; i < parts.size(); i++) {
        placed.add(
            new Part(
                parts.get(i).volley,
                parts.get(i).potential,
                joint.positionSamples(i),
                joint.scaleRatio(i),
                joint.widening(i)));
      }
      Part least =
          placed.stream()
              .filter(isLikely.negate())
              .min(Comparator.comparingDouble(Part::sizeRatio))
              .orElse(null);
      if (least == null) {
        return of(placed, joint.residual());
      }
      parts = placed.stream().filter(part -> part != least).toList();
    }
  }

  /**
   * What is left if only usual sizes are believed: of a potential far larger than usual a second
   * one under it shows, of one far smaller all does, for it may stand for a part of another.
   */
  double[] leftByUsualSizes(double[] window) {
    double[] all = window.clone();
    for (Part part : parts) {
      double largest = LARGEST_USUAL * part.volley.usual[part.potential];
      double taken = part.scale > largest ? part.volley.usual[part.potential] : part.scale;
      part.shape().addTo(all, part.position, part.sizeRatio() < SMALLEST_USUAL ? 0 : -taken);
    }
    return all;
  }

  /** The parts, those of an odd size where they should be and as large as usual. */
  List<Part> withOddSizesExpected() {
    return parts.stream()
        .map(
            part -> {
              double ratio = part.sizeRatio();
              double expected = anchor(part.volley) + part.volley.track.lag[part.potential];
              return ratio < SMALLEST_USUAL || ratio > LARGEST_USUAL
                  ? Part.at(part.volley, part.potential, expected)
                  : part;
            })
        .toList();
  }

  /** The part that one potential of a discharge has, or null if it has none. */
  @Nullable Part part(Volley volley, int potential) {
    return parts.stream()
        .filter(part -> part.volley == volley && part.potential == potential)
        .findFirst()
        .orElse(null);
  }

  /** Lag 0 of a discharge by all its potentials. */
  double anchor(Volley volley) {
    double[] offsets =
        parts.stream()
            .filter(part -> part.volley == volley)
            .mapToDouble(part -> part.position - volley.track.lag[part.potential])
            .toArray();
    return RobustStatistics.median(offsets);
  }

  private static Explanation of(List<Part> parts, double[] left) {
    double sum = 0;
    for (double value : left) {
      sum += value * value;
    }
    return new Explanation(List.copyOf(parts), left, sum);
  }
}
