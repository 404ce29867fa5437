package org.lonefibre.model.electrode;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Bodies with known fields: surfaces of revolution about the y axis, from their point of largest y.
 */
public final class TestSurfaces {

  /** Where a body's outline passes: height and radius, and what is made of the strip before it. */
  private record Pass(double y, double radius, Region region) {}

  private TestSurfaces() {}

  /** A ball of one region, its middle at the origin, its area that of the smooth one. */
  public static Surface ball(double radius, int rings, int sectors, Region region) {
    return ellipsoid(radius, radius, 1, rings, sectors, region);
  }

  /** A ball whose nodes crowd at its point of largest y. */
  public static Surface crowdedBall(double radius, int rings, int sectors, Region region) {
    return ellipsoid(radius, radius, 400, rings, sectors, region);
  }

  /** A spheroid, long along x, drawn from a ball with poles on the long axis. */
  public static Surface spheroid(double longMm, double shortMm, int rings, int sectors) {
    SurfaceBuilder builder = new SurfaceBuilder();
    double swell = swell(rings, sectors);
    rows(
        builder,
        outline(longMm * swell, shortMm * swell, 1, rings, Region.CORE),
        sectors,
        p -> p[1],
        p -> p[0],
        p -> p[2]);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  /** A rod along x with flat ends; its nodes crowd at its middle, towards y. */
  public static Surface rod(double radius, double halfLength, int steps, int sectors) {
    double[] even = new double[steps + 1];
    double[] evenTurns = new double[sectors + 1];
    for (int i = 0; i <= steps; i++) {
      even[i] = (double) i / steps;
    }
    for (int i = 0; i <= sectors; i++) {
      evenTurns[i] = (double) i / sectors;
    }
    double[] places = Grading.stretched(even, 2000);
    double[] turns = Grading.stretched(evenTurns, 10);
    SurfaceBuilder builder = new SurfaceBuilder();
    int[] row = new int[sectors + 1];
    for (int k = -steps - 2; k <= steps + 2; k++) {
      double x = Math.signum(k) * halfLength * places[Math.min(steps, Math.abs(k))];
      double size = Math.abs(k) > steps ? radius * (steps + 3 - Math.abs(k)) / 3 : radius;
      int[] next = new int[sectors + 1];
      for (int i = 0; i <= sectors; i++) {
        double turn = Math.PI * turns[i];
        next[i] = builder.node(x, size * Math.cos(turn), size * Math.sin(turn));
      }
      if (k == -steps - 2) {
        builder.fan(builder.node(-halfLength, 0, 0), next, Region.INSULATION);
      } else {
        builder.strip(row, next, Region.INSULATION);
      }
      row = next;
    }
    builder.fanInwards(row, builder.node(halfLength, 0, 0), Region.INSULATION);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  private static Surface ellipsoid(
      double height, double radius, double ratio, int rings, int sectors, Region region) {
    SurfaceBuilder builder = new SurfaceBuilder();
    double swell = ratio == 1 ? swell(rings, sectors) : 1;
    rows(
        builder,
        outline(height * swell, radius * swell, ratio, rings, region),
        sectors,
        p -> p[0],
        p -> p[1],
        p -> p[2]);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  private static List<Pass> outline(
      double height, double radius, double ratio, int rings, Region region) {
    List<Pass> passes = new ArrayList<>();
    double[] even = new double[rings + 1];
    for (int i = 0; i <= rings; i++) {
      even[i] = (double) i / rings;
    }
    double[] places = Grading.stretched(even, ratio);
    for (int i = 0; i <= rings; i++) {
      double angle = Math.PI * places[i];
      passes.add(new Pass(height * Math.cos(angle), radius * Math.sin(angle), region));
    }
    return passes;
  }

  /** What a ball of flat triangles must grow by for the area of the round one. */
  private static double swell(int rings, int sectors) {
    SurfaceBuilder builder = new SurfaceBuilder();
    rows(builder, outline(1, 1, 1, rings, Region.CORE), sectors, p -> p[0], p -> p[1], p -> p[2]);
    Surface flat = builder.close(Surface.Symmetry.MIRROR_Z);
    double area = 0;
    for (int t = 0; t < flat.triangles(); t++) {
      double[] a = flat.cornerMm(t, 0);
      double[] b = flat.cornerMm(t, 1);
      double[] c = flat.cornerMm(t, 2);
      double x = (b[1] - a[1]) * (c[2] - a[2]) - (b[2] - a[2]) * (c[1] - a[1]);
      double y = (b[2] - a[2]) * (c[0] - a[0]) - (b[0] - a[0]) * (c[2] - a[2]);
      double z = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
      area += Math.sqrt(x * x + y * y + z * z);
    }
    return Math.sqrt(4 * Math.PI / area);
  }

  /**
   * A flat drum whose top lies in y = 0: a disc of one region, the rest of another. Large enough,
   * it is a plane.
   */
  public static Surface drum(
      double disc,
      double radius,
      Region inner,
      Region outer,
      int rings,
      int outwards,
      int sectors) {
    List<Pass> passes = new ArrayList<>();
    for (double place : Grading.towardsEnd(rings)) {
      passes.add(new Pass(0, disc * place, inner));
    }
    for (double place : Grading.fromStart(outwards)) {
      if (place > 0) {
        passes.add(new Pass(0, disc * Math.pow(radius / disc, place), outer));
      }
    }
    for (int i = 1; i <= 4; i++) {
      passes.add(new Pass(-0.25 * i * radius, radius, outer));
    }
    for (int i = 3; i >= 0; i--) {
      passes.add(new Pass(-radius, 0.25 * i * radius, outer));
    }
    // The disc's true area, so that a polygon does not make it small.
    double corner = Math.PI / sectors;
    double swell = Math.sqrt(corner / Math.sin(corner));
    SurfaceBuilder builder = new SurfaceBuilder();
    rows(builder, passes, sectors, p -> p[0], p -> p[1] * swell, p -> p[2] * swell);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  private static void rows(
      SurfaceBuilder builder,
      List<Pass> passes,
      int sectors,
      ToDoubleFunction<double[]> toY,
      ToDoubleFunction<double[]> toX,
      ToDoubleFunction<double[]> toZ) {
    int[] row = new int[0];
    int first = -1;
    for (int k = 0; k < passes.size(); k++) {
      Pass pass = passes.get(k);
      if (k == 0 || k == passes.size() - 1) {
        double[] pole = {pass.y(), 0, 0};
        int node =
            builder.node(toX.applyAsDouble(pole), toY.applyAsDouble(pole), toZ.applyAsDouble(pole));
        if (k == 0) {
          first = node;
        } else {
          builder.fanInwards(row, node, pass.region());
        }
        continue;
      }
      int[] next = new int[sectors + 1];
      for (int i = 0; i <= sectors; i++) {
        double angle = Math.PI * i / sectors;
        double[] place = {
          pass.y(), pass.radius() * Math.cos(angle), pass.radius() * Math.sin(angle)
        };
        next[i] =
            builder.node(
                toX.applyAsDouble(place), toY.applyAsDouble(place), toZ.applyAsDouble(place));
      }
      if (row.length == 0) {
        builder.fan(first, next, pass.region());
      } else {
        builder.strip(row, next, pass.region());
      }
      row = next;
    }
  }
}
