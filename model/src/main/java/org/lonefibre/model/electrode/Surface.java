package org.lonefibre.model.electrode;

/**
 * A closed surface in triangles, in mm, or the half of one with z of 0 or more that is its own
 * mirror image.
 *
 * <ul>
 *   <li>Corners run so that the normal points out of the needle, into the tissue.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class Surface {

  private final double[][] nodes;
  private final int[][] triangles;
  private final Region[] regions;
  private final Symmetry symmetry;

  /** Whether the surface is whole. */
  public enum Symmetry {
    /** The whole surface. */
    NONE,
    /** One half; the other is its mirror image at the plane z = 0. */
    MIRROR_Z
  }

  Surface(double[][] nodes, int[][] triangles, Region[] regions, Symmetry symmetry) {
    this.nodes = nodes;
    this.triangles = triangles;
    this.regions = regions;
    this.symmetry = symmetry;
  }

  /** Number of triangles laid. */
  public int triangles() {
    return triangles.length;
  }

  /** What a triangle is made of. */
  public Region region(int triangle) {
    return regions[triangle];
  }

  /** A copy of a corner's place, x, y and z in mm; corners are 0, 1 and 2. */
  public double[] cornerMm(int triangle, int corner) {
    return nodes[triangles[triangle][corner]].clone();
  }

  /** Whether this is all of the surface. */
  public Symmetry symmetry() {
    return symmetry;
  }

  /** Both halves. */
  public Surface whole() {
    if (symmetry == Symmetry.NONE) {
      return this;
    }
    int count = nodes.length;
    int[] image = new int[count];
    double[][] all = new double[2 * count][];
    int next = count;
    for (int i = 0; i < count; i++) {
      all[i] = nodes[i];
      if (nodes[i][2] == 0) {
        image[i] = i;
      } else {
        image[i] = next;
        all[next++] = new double[] {nodes[i][0], nodes[i][1], -nodes[i][2]};
      }
    }
    int half = triangles.length;
    int[][] both = new int[2 * half][];
    Region[] made = new Region[2 * half];
    for (int t = 0; t < half; t++) {
      int[] own = triangles[t];
      both[t] = own;
      both[half + t] = new int[] {image[own[0]], image[own[2]], image[own[1]]};
      made[t] = regions[t];
      made[half + t] = regions[t];
    }
    return new Surface(java.util.Arrays.copyOf(all, next), both, made, Symmetry.NONE);
  }
}
