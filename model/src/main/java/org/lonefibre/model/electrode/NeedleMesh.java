package org.lonefibre.model.electrode;

/**
 * Makes the surface of a needle.
 *
 * <p>Own structured rows rather than a library: docs/decisions/0009-rows-of-triangles.md.
 *
 * <p>Thread rule: no state.
 */
public final class NeedleMesh {

  private NeedleMesh() {}

  /**
   * The half of a needle's surface with z of 0 or more.
   *
   * @param needle the needle
   * @param finenessRatio number of steps along every line over that of the default mesh, 0.3 to 4;
   *     triangles grow with its square, about 1,500 at 1
   */
  public static Surface half(Needle needle, double finenessRatio) {
    if (!(finenessRatio >= 0.3 && finenessRatio <= 4)) {
      throw new IllegalArgumentException("fineness must be 0.3 to 4, found " + finenessRatio);
    }
    Tip tip = needle.tip();
    if (tip instanceof Tip.SidePort port) {
      return new SidePortSurface(needle, port, finenessRatio).lay();
    }
    if (tip instanceof Tip.Bevel bevel) {
      return new BevelSurface(needle, bevel, finenessRatio).lay();
    }
    return new ConeSurface(needle, (Tip.Cone) tip, finenessRatio).lay();
  }

  /** A number of steps at a fineness, at least a few. */
  static int steps(int usual, double finenessRatio) {
    return Math.max(2, (int) Math.round(usual * finenessRatio));
  }
}
