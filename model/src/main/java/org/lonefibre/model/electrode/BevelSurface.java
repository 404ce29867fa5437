package org.lonefibre.model.electrode;

/**
 * A cylinder ground off obliquely, with the core and its ring in the middle of the face.
 *
 * <p>Seen along the shaft, core, ring and shaft are concentric circles, as polygons of their area;
 * the face stretches them. From its rim rows of nodes go back along the shaft to a flat end.
 */
final class BevelSurface {

  /** How much longer than the ring's first step those on the metal beside it may be. */
  private static final double BESIDE_RATIO = 6;

  private final double radius;
  private final double core;
  private final double ring;
  private final double sine;
  private final double cosine;
  private final double length;
  private final double fineness;
  private final int sectors;
  private final SurfaceBuilder builder = new SurfaceBuilder();

  BevelSurface(Needle needle, Tip.Bevel tip, double fineness) {
    this.fineness = fineness;
    sine = Math.sin(Math.toRadians(tip.bevelDeg()));
    cosine = Math.cos(Math.toRadians(tip.bevelDeg()));
    length = needle.shaftLengthMm();
    sectors = NeedleMesh.steps(16, fineness);
    double larger = Grading.ofEqualArea(2 * sectors);
    radius = larger * needle.shaftDiameterMm() / 2;
    core = larger * tip.coreDiameterUm() / 2000;
    ring = core + larger * tip.insulationThicknessUm() / 1000;
  }

  Surface lay() {
    int middle = builder.node(0, 0, 0);
    int[] row = new int[0];
    double[] gap = Grading.bothEnds(NeedleMesh.steps(8, fineness));
    double longest = BESIDE_RATIO * gap[1] * (ring - core);
    for (double place : Grading.towardsEnd(NeedleMesh.steps(8, fineness), longest / core)) {
      if (place > 0) {
        int[] next = onFace(core * place);
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
        int[] next = onFace(core + place * (ring - core));
        builder.strip(row, next, Region.INSULATION);
        row = next;
      }
    }
    int onShaft = 9 + Grading.moreFor(longest / (radius - ring) / Grading.bothEnds(9)[1]);
    for (double place :
        Grading.bothEnds(NeedleMesh.steps(onShaft, fineness), longest / (radius - ring))) {
      if (place > 0) {
        int[] next = onFace(ring + place * (radius - ring));
        builder.strip(row, next, Region.SHAFT);
        row = next;
      }
    }
    double[] back =
        Grading.stretched(Grading.fromStart(NeedleMesh.steps(16, fineness)), length / radius);
    for (double place : back) {
      if (place > 0) {
        int[] next = onWall(place);
        builder.strip(row, next, Region.SHAFT);
        row = next;
      }
    }
    int rings = NeedleMesh.steps(2, fineness);
    for (int i = rings - 1; i > 0; i--) {
      int[] next = onEnd(radius * Grading.towardsEnd(rings)[i]);
      builder.strip(row, next, Region.SHAFT);
      row = next;
    }
    builder.fanInwards(row, node(end(), 0, 0), Region.SHAFT);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  private double end() {
    return radius * cosine / sine - length;
  }

  private int[] onFace(double size) {
    int[] row = new int[sectors + 1];
    for (int i = 0; i <= sectors; i++) {
      double side = size * Math.cos(Math.PI * i / sectors);
      row[i] = node(side * cosine / sine, side, size * Math.sin(Math.PI * i / sectors));
    }
    return row;
  }

  private int[] onWall(double place) {
    int[] row = new int[sectors + 1];
    for (int i = 0; i <= sectors; i++) {
      double side = radius * Math.cos(Math.PI * i / sectors);
      double rim = side * cosine / sine;
      row[i] = node(rim + place * (end() - rim), side, radius * Math.sin(Math.PI * i / sectors));
    }
    return row;
  }

  private int[] onEnd(double size) {
    int[] row = new int[sectors + 1];
    for (int i = 0; i <= sectors; i++) {
      double angle = Math.PI * i / sectors;
      row[i] = node(end(), size * Math.cos(angle), size * Math.sin(angle));
    }
    return row;
  }

  /** A node at a place along the shaft, to the side in the mirror plane, and out of it. */
  private int node(double along, double side, double out) {
    return builder.node(along * cosine + side * sine, along * sine - side * cosine, out);
  }
}
