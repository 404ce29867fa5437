package org.lonefibre.model.electrode;

import java.util.Arrays;

/**
 * A cylinder with flat ends and, in its side, a round port with the core in the middle.
 *
 * <p>Circles of core and port are circles seen along the port's axis, lifted onto the cylinder.
 * Around the port, rings pass over from the circle to a rectangle of the unrolled cylinder, half of
 * its circumference wide; rows of nodes go on from its two short sides to the ends. Polygons have
 * the area of their circles.
 */
final class SidePortSurface {

  /** How much longer than the port's first step those on the core may be. */
  private static final double BESIDE_RATIO = 3;

  private final double radius;
  private final double core;
  private final double port;
  private final double toTip;
  private final double toEnd;
  private final double boxHalf;
  private final double fineness;
  private final double facets;
  private final int around;
  private final int along;
  private final SurfaceBuilder builder = new SurfaceBuilder();

  SidePortSurface(Needle needle, Tip.SidePort tip, double fineness) {
    this.fineness = fineness;
    radius = needle.shaftDiameterMm() / 2;
    toTip = tip.coreFromTipMm();
    toEnd = needle.shaftLengthMm() - toTip;
    int more = Grading.moreFor(tip.portDiameterUm() / tip.coreDiameterUm() - 1) / 2;
    around = NeedleMesh.steps(6 + more, fineness);
    along = NeedleMesh.steps(6 + more, fineness);
    double larger = Grading.ofEqualArea(2 * sectors());
    core = larger * tip.coreDiameterUm() / 2000;
    port = larger * tip.portDiameterUm() / 2000;
    boxHalf = Math.min(port + 1.5 * radius, Math.min(0.5 * (port + toTip), 0.5 * (port + toEnd)));
    facets = Grading.ofEqualArea(2 * around);
  }

  Surface lay() {
    int middle = builder.node(0, 0, 0);
    int[] row = new int[0];
    double[] gap = Grading.bothEnds(NeedleMesh.steps(10, fineness));
    double longest = BESIDE_RATIO * core * (Math.pow(port / core, gap[1]) - 1);
    for (double place : Grading.towardsEnd(NeedleMesh.steps(7, fineness), longest / core)) {
      if (place > 0) {
        int[] next = circle(core * place);
        if (row.length == 0) {
          builder.fan(middle, next, Region.CORE);
        } else {
          builder.strip(row, next, Region.CORE);
        }
        row = next;
      }
    }
    for (double place : gap) {
      if (place > 0) {
        int[] next = circle(core * Math.pow(port / core, place));
        builder.strip(row, next, Region.INSULATION);
        row = next;
      }
    }
    int beside = 10 + Grading.moreFor(4 * port / boxHalf);
    double[] outwards =
        Grading.stretched(Grading.fromStart(NeedleMesh.steps(beside, fineness)), boxHalf / port);
    for (double place : outwards) {
      if (place > 0) {
        int[] next = towardsBox(place);
        builder.strip(row, next, Region.SHAFT);
        row = next;
      }
    }
    end(Arrays.copyOfRange(row, 0, around + 1), 1, boxHalf, toTip);
    end(Arrays.copyOfRange(row, around + along, 2 * around + along + 1), -1, boxHalf, toEnd);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  private int sectors() {
    return 2 * around + along;
  }

  private int[] circle(double size) {
    int[] row = new int[sectors() + 1];
    for (int i = 0; i < row.length; i++) {
      double angle = Math.PI * i / sectors();
      row[i] =
          onCylinder(size * Math.cos(angle), Math.asin(size * Math.sin(angle) / radius), radius);
    }
    return row;
  }

  private int[] towardsBox(double place) {
    int[] row = new int[sectors() + 1];
    for (int i = 0; i < row.length; i++) {
      double angle = Math.PI * i / sectors();
      double fromX = port * Math.cos(angle);
      double fromTurn = Math.asin(port * Math.sin(angle) / radius);
      double toX = boxHalf;
      double toTurn = Math.PI;
      if (i < around) {
        toTurn = Math.PI * i / around;
      } else if (i <= around + along) {
        toX = boxHalf * (1 - 2.0 * (i - around) / along);
      } else {
        toX = -boxHalf;
        toTurn = Math.PI * (sectors() - i) / around;
      }
      row[i] =
          onCylinder(
              fromX + place * (toX - fromX),
              fromTurn + place * (toTurn - fromTurn),
              radius * (1 + place * (facets - 1)));
    }
    return row;
  }

  private void end(int[] start, int direction, double from, double to) {
    int steps = NeedleMesh.steps(4 + (int) Math.round(2.5 * Math.log(to / from) + 1), fineness);
    double first = 2 * boxHalf / along;
    double ratio = Math.max(1, 2 * (to - from) / steps / first);
    int[] row = start;
    for (double place : Grading.stretched(even(steps), ratio)) {
      if (place > 0) {
        int[] next = new int[around + 1];
        for (int i = 0; i <= around; i++) {
          double turn = Math.PI * (direction > 0 ? i : around - i) / around;
          next[i] = onCylinder(direction * (from + place * (to - from)), turn, radius * facets);
        }
        builder.strip(row, next, Region.SHAFT);
        row = next;
      }
    }
    cap(row, direction * to, direction);
  }

  private void cap(int[] rim, double x, int direction) {
    int rings = NeedleMesh.steps(2, fineness);
    int[] row = rim;
    for (int ring = rings - 1; ring > 0; ring--) {
      double size = radius * facets * Grading.towardsEnd(rings)[ring];
      int[] next = new int[around + 1];
      for (int i = 0; i <= around; i++) {
        double turn = Math.PI * (direction > 0 ? i : around - i) / around;
        next[i] = builder.node(x, size * Math.cos(turn) - radius, size * Math.sin(turn));
      }
      builder.strip(row, next, Region.SHAFT);
      row = next;
    }
    builder.fanInwards(row, builder.node(x, -radius, 0), Region.SHAFT);
  }

  private int onCylinder(double x, double turn, double size) {
    return builder.node(x, size * Math.cos(turn) - radius, size * Math.sin(turn));
  }

  private static double[] even(int steps) {
    double[] places = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      places[i] = (double) i / steps;
    }
    return places;
  }
}
