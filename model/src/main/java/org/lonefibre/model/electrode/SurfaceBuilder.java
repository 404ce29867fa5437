package org.lonefibre.model.electrode;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Lays triangles between rows of nodes, and proves that they close.
 *
 * <ul>
 *   <li>Rows run from the mirror plane z = 0 around the half with z above 0 and back to it, and
 *       follow each other outwards from the middle of the core; a row that two patches share is
 *       laid once.
 *   <li>A quadrilateral is cut along its shorter diagonal.
 * </ul>
 */
final class SurfaceBuilder {

  /** A place on the mirror plane is put exactly there. */
  private static final double ON_PLANE_MM = 1e-9;

  private final List<double[]> nodes = new ArrayList<>();
  private final List<int[]> triangles = new ArrayList<>();
  private final List<Region> regions = new ArrayList<>();

  /** Lays a node. */
  int node(double x, double y, double z) {
    nodes.add(new double[] {x, y, Math.abs(z) < ON_PLANE_MM ? 0 : z});
    return nodes.size() - 1;
  }

  /** Triangles from one node to a row around it. */
  void fan(int middle, int[] row, Region region) {
    for (int i = 0; i + 1 < row.length; i++) {
      add(middle, row[i], row[i + 1], region);
    }
  }

  /** Triangles from a row inwards to a node. */
  void fanInwards(int[] row, int middle, Region region) {
    for (int i = 0; i + 1 < row.length; i++) {
      add(row[i], middle, row[i + 1], region);
    }
  }

  /** Quadrilaterals between two rows of equal length, the second farther out. */
  void strip(int[] inner, int[] outer, Region region) {
    for (int i = 0; i + 1 < inner.length; i++) {
      if (apart(inner[i], outer[i + 1]) <= apart(outer[i], inner[i + 1])) {
        add(inner[i], outer[i], outer[i + 1], region);
        add(inner[i], outer[i + 1], inner[i + 1], region);
      } else {
        add(inner[i], outer[i], inner[i + 1], region);
        add(outer[i], outer[i + 1], inner[i + 1], region);
      }
    }
  }

  private void add(int a, int b, int c, Region region) {
    triangles.add(new int[] {a, b, c});
    regions.add(region);
  }

  private double apart(int a, int b) {
    double[] p = nodes.get(a);
    double[] q = nodes.get(b);
    return Math.hypot(Math.hypot(p[0] - q[0], p[1] - q[1]), p[2] - q[2]);
  }

  /** The surface, its normals outwards, proven closed. */
  Surface close(Surface.Symmetry symmetry) {
    double[][] places = nodes.toArray(new double[0][]);
    int[][] corners = triangles.toArray(new int[0][]);
    double volume = 0;
    for (int[] t : corners) {
      volume += triple(places[t[0]], places[t[1]], places[t[2]]);
    }
    if (volume < 0) {
      for (int[] t : corners) {
        int kept = t[1];
        t[1] = t[2];
        t[2] = kept;
      }
    }
    Surface surface = new Surface(places, corners, regions.toArray(new Region[0]), symmetry);
    requireClosed(places, corners, symmetry);
    return surface;
  }

  private static double triple(double[] a, double[] b, double[] c) {
    return a[0] * (b[1] * c[2] - b[2] * c[1])
        + a[1] * (b[2] * c[0] - b[0] * c[2])
        + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }

  /** Every edge belongs to two triangles that run it in opposite ways, or lies on the mirror. */
  private static void requireClosed(double[][] places, int[][] corners, Surface.Symmetry symmetry) {
    Map<Long, Integer> open = new HashMap<>();
    for (int[] t : corners) {
      for (int i = 0; i < 3; i++) {
        int from = t[i];
        int to = t[(i + 1) % 3];
        long key = (long) Math.min(from, to) << 32 | Math.max(from, to);
        open.merge(key, from < to ? 1 : -1, Integer::sum);
      }
    }
    open.forEach(
        (key, balance) -> {
          boolean onPlane =
              symmetry == Surface.Symmetry.MIRROR_Z
                  && places[(int) (key >> 32)][2] == 0
                  && places[(int) (long) key][2] == 0;
          if (balance != 0 && !onPlane) {
            throw new IllegalStateException(
                "the surface is open at node " + (key >> 32) + " of " + places.length);
          }
        });
  }
}
