package org.lonefibre.model.leadfield;

import org.lonefibre.model.electrode.Region;
import org.lonefibre.model.electrode.Surface;

/**
 * The triangles of a surface in the stretched medium: corners, middles, normals, areas; and the
 * integrals over each of 1 / (4 pi r) and of its slope along the normal.
 *
 * <ul>
 *   <li>Near a triangle the integrals are exact: one logarithm an edge and the solid angle (Van
 *       Oosterom and Strackee 1983; Wilton et al. 1984; from memory, held by tests). Beyond {@value
 *       #FAR_RATIO} times its size they are those of its middle with its second moments.
 *   <li>With a mirror, each triangle acts together with its image.
 *   <li>Thread rule: immutable; results go into the caller's array.
 * </ul>
 */
final class Panels {

  private static final double FAR_RATIO = 4;
  private static final double PER_SPHERE = 1 / (4 * Math.PI);

  private final int count;
  private final boolean mirrored;
  private final double[] corners;
  private final double[] middles;
  private final double[] normals;
  private final double[] areas;
  private final double[] stretch;
  private final double[] farSquared;
  private final double[] spread;
  private final double[] lowest = {
    Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY
  };
  private final double[] highest = {
    Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY
  };
  private final Region[] regions;

  Panels(Surface surface, ScaledMedium medium) {
    mirrored = surface.symmetry() == Surface.Symmetry.MIRROR_Z;
    if (mirrored && !medium.mirrorsZ()) {
      throw new IllegalArgumentException("half a surface needs a medium that mirrors z");
    }
    count = surface.triangles();
    corners = new double[9 * count];
    middles = new double[3 * count];
    normals = new double[3 * count];
    areas = new double[count];
    stretch = new double[count];
    farSquared = new double[count];
    spread = new double[count];
    regions = new Region[count];
    for (int t = 0; t < count; t++) {
      regions[t] = surface.region(t);
      double[][] raw = new double[3][];
      for (int c = 0; c < 3; c++) {
        raw[c] = surface.cornerMm(t, c);
        double[] place = medium.scaled(raw[c][0], raw[c][1], raw[c][2]);
        System.arraycopy(place, 0, corners, 9 * t + 3 * c, 3);
      }
      measure(t, area(raw[0], raw[1], raw[2]));
    }
    for (int i = 0; i < corners.length; i++) {
      lowest[i % 3] = Math.min(lowest[i % 3], corners[i]);
      highest[i % 3] = Math.max(highest[i % 3], corners[i]);
    }
    if (mirrored) {
      double reach = Math.max(-lowest[2], highest[2]);
      lowest[2] = -reach;
      highest[2] = reach;
    }
  }

  private static double area(double[] a, double[] b, double[] c) {
    double[] n = cross(minus(b, a), minus(c, a));
    return 0.5 * Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
  }

  private static double[] minus(double[] a, double[] b) {
    return new double[] {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
  }

  private static double[] cross(double[] a, double[] b) {
    return new double[] {
      a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
    };
  }

  private void measure(int t, double trueArea) {
    double[] a = corner(t, 0);
    double[] b = corner(t, 1);
    double[] c = corner(t, 2);
    double[] n = cross(minus(b, a), minus(c, a));
    double doubled = Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
    areas[t] = 0.5 * doubled;
    stretch[t] = areas[t] / trueArea;
    double largest = 0;
    double sum = 0;
    for (int k = 0; k < 3; k++) {
      normals[3 * t + k] = n[k] / doubled;
      middles[3 * t + k] = (a[k] + b[k] + c[k]) / 3;
    }
    for (int i = 0; i < 3; i++) {
      double squared = 0;
      for (int k = 0; k < 3; k++) {
        double off = corners[9 * t + 3 * i + k] - middles[3 * t + k];
        squared += off * off;
      }
      sum += squared;
      largest = Math.max(largest, squared);
    }
    farSquared[t] = FAR_RATIO * FAR_RATIO * largest;
    spread[t] = sum / 12;
  }

  private double[] corner(int t, int c) {
    int at = 9 * t + 3 * c;
    return new double[] {corners[at], corners[at + 1], corners[at + 2]};
  }

  int count() {
    return count;
  }

  boolean mirrored() {
    return mirrored;
  }

  Region region(int t) {
    return regions[t];
  }

  /** Area in the stretched medium, of this triangle alone, in mm2. */
  double area(int t) {
    return areas[t];
  }

  /** Area in the stretched medium over true area. */
  double stretchRatio(int t) {
    return stretch[t];
  }

  double middle(int t, int axis) {
    return middles[3 * t + axis];
  }

  /** Whether a place lies within the surface, and not on it, where half a turn is seen. */
  boolean hold(double x, double y, double z) {
    if (!(x > lowest[0] && x < highest[0])
        || !(y > lowest[1] && y < highest[1])
        || !(z > lowest[2] && z < highest[2])) {
      return false;
    }
    double[] seen = new double[2];
    double turns = 0;
    for (int t = 0; t < count; t++) {
      see(t, x, y, z, seen);
      turns += seen[1];
    }
    return turns < -0.75;
  }

  /** Both integrals over a triangle, and its image, seen from a place; added to nothing. */
  void see(int t, double x, double y, double z, double[] singleDouble) {
    singleDouble[0] = 0;
    singleDouble[1] = 0;
    add(t, x, y, z, singleDouble);
    if (mirrored) {
      add(t, x, y, -z, singleDouble);
    }
  }

  private void add(int t, double x, double y, double z, double[] sum) {
    int m = 3 * t;
    double dx = x - middles[m];
    double dy = y - middles[m + 1];
    double dz = z - middles[m + 2];
    double squared = dx * dx + dy * dy + dz * dz;
    double height = dx * normals[m] + dy * normals[m + 1] + dz * normals[m + 2];
    if (squared > farSquared[t]) {
      addFar(t, dx, dy, dz, squared, height, sum);
    } else {
      addNear(t, x, y, z, height, sum);
    }
  }

  private void addFar(
      int t, double dx, double dy, double dz, double squared, double height, double[] sum) {
    double moment = 0;
    for (int c = 9 * t, m = 3 * t; c < 9 * t + 9; c += 3) {
      double part =
          (corners[c] - middles[m]) * dx
              + (corners[c + 1] - middles[m + 1]) * dy
              + (corners[c + 2] - middles[m + 2]) * dz;
      moment += part * part;
    }
    double over = 1 / squared;
    double root = Math.sqrt(over);
    double shape = moment * over / 12;
    double weight = areas[t] * PER_SPHERE * root;
    sum[0] += weight * (1 + over * (1.5 * shape - 0.5 * spread[t]));
    sum[1] += weight * over * height * (1 + over * (7.5 * shape - 1.5 * spread[t]));
  }

  private void addNear(int t, double x, double y, double z, double height, double[] sum) {
    int c = 9 * t;
    double ax = corners[c] - x;
    double ay = corners[c + 1] - y;
    double az = corners[c + 2] - z;
    double bx = corners[c + 3] - x;
    double by = corners[c + 4] - y;
    double bz = corners[c + 5] - z;
    double cx = corners[c + 6] - x;
    double cy = corners[c + 7] - y;
    double cz = corners[c + 8] - z;
    double ra = Math.sqrt(ax * ax + ay * ay + az * az);
    double rb = Math.sqrt(bx * bx + by * by + bz * bz);
    double rc = Math.sqrt(cx * cx + cy * cy + cz * cz);
    double solid = 0;
    if (Math.abs(height) > 1e-12) {
      double volume =
          ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
      double below =
          ra * rb * rc
              + (ax * bx + ay * by + az * bz) * rc
              + (bx * cx + by * cy + bz * cz) * ra
              + (cx * ax + cy * ay + cz * az) * rb;
      solid = 2 * Math.atan2(volume, below);
    }
    double nx = normals[3 * t];
    double ny = normals[3 * t + 1];
    double nz = normals[3 * t + 2];
    double edges =
        edge(ax, ay, az, bx, by, bz, ra, rb, nx, ny, nz)
            + edge(bx, by, bz, cx, cy, cz, rb, rc, nx, ny, nz)
            + edge(cx, cy, cz, ax, ay, az, rc, ra, nx, ny, nz);
    sum[0] += PER_SPHERE * (edges + height * solid);
    sum[1] -= PER_SPHERE * solid;
  }

  private static double edge(
      double px,
      double py,
      double pz,
      double qx,
      double qy,
      double qz,
      double rp,
      double rq,
      double nx,
      double ny,
      double nz) {
    double ex = qx - px;
    double ey = qy - py;
    double ez = qz - pz;
    double length = Math.sqrt(ex * ex + ey * ey + ez * ez);
    double side =
        (px * (ey * nz - ez * ny) + py * (ez * nx - ex * nz) + pz * (ex * ny - ey * nx)) / length;
    double sum = rp + rq;
    return Math.abs(side) < 1e-12 * sum ? 0 : side * Math.log((sum + length) / (sum - length));
  }
}
