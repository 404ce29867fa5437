package org.lonefibre.model.electrode;

/**
 * A cone on a cylinder; the cone is bare from its point to a circle, all else is insulated. The
 * outward normal of the core is the axis.
 */
final class ConeSurface {

  private final double radius;
  private final double slope;
  private final double bare;
  private final double length;
  private final double fineness;
  private final int sectors;
  private final SurfaceBuilder builder = new SurfaceBuilder();

  ConeSurface(Needle needle, Tip.Cone tip, double fineness) {
    this.fineness = fineness;
    radius = needle.shaftDiameterMm() / 2;
    slope = Math.tan(Math.toRadians(tip.tipConeDeg() / 2));
    bare = tip.exposedLengthMm();
    length = needle.shaftLengthMm();
    sectors = NeedleMesh.steps(9, fineness);
  }

  Surface lay() {
    int point = builder.node(0, 0, 0);
    int[] row = new int[0];
    for (double place : Grading.stretched(Grading.towardsEnd(NeedleMesh.steps(18, fineness)), 20)) {
      if (place > 0) {
        int[] next = ring(bare * place, bare * place * slope);
        if (row.length == 0) {
          builder.fan(point, next, Region.CORE);
        } else {
          builder.strip(row, next, Region.CORE);
        }
        row = next;
      }
    }
    double base = radius / slope;
    double longer = base / bare;
    int insulated = 8 + Grading.moreFor(2 / longer);
    for (double place : Grading.bothEnds(NeedleMesh.steps(insulated, fineness))) {
      if (place > 0) {
        double depth = bare * Math.pow(longer, place);
        int[] next = ring(depth, depth * slope);
        builder.strip(row, next, Region.INSULATION);
        row = next;
      }
    }
    for (double place :
        Grading.stretched(
            Grading.fromStart(NeedleMesh.steps(12, fineness)), 0.2 * length / radius)) {
      if (place > 0) {
        int[] next = ring(base + place * (length - base), radius);
        builder.strip(row, next, Region.INSULATION);
        row = next;
      }
    }
    int rings = NeedleMesh.steps(2, fineness);
    for (int i = rings - 1; i > 0; i--) {
      int[] next = ring(length, radius * Grading.towardsEnd(rings)[i]);
      builder.strip(row, next, Region.INSULATION);
      row = next;
    }
    builder.fanInwards(row, builder.node(0, -length, 0), Region.INSULATION);
    return builder.close(Surface.Symmetry.MIRROR_Z);
  }

  private int[] ring(double depth, double size) {
    int[] row = new int[sectors + 1];
    double larger = size * Grading.ofEqualArea(2 * sectors);
    for (int i = 0; i <= sectors; i++) {
      double angle = Math.PI * i / sectors;
      row[i] = builder.node(larger * Math.cos(angle), -depth, larger * Math.sin(angle));
    }
    return row;
  }
}
