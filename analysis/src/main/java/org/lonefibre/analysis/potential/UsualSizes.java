package org.lonefibre.analysis.potential;

import org.lonefibre.signal.robust.SlidingMedian;

/** What size each potential of a unit usually has around each discharge: sizes may drift. */
final class UsualSizes {

  private static final int NEIGHBOURS = 15;
  private static final int FEWEST_NEAR = 5;
  private static final double SMALLEST = 0.4;
  private static final double LARGEST = 2.5;

  private UsualSizes() {}

  /** The median of the present ones near by: {@code [discharge][potential]}, 1 = the shape. */
  static double[][] of(UnitTrack unit) {
    double[][] usual = new double[unit.discharges][unit.potentials];
    for (int p = 0; p < unit.potentials; p++) {
      SlidingMedian near = new SlidingMedian(2 * NEIGHBOURS + 1);
      for (int d = -NEIGHBOURS; d < unit.discharges; d++) {
        int coming = d + NEIGHBOURS;
        int going = d - NEIGHBOURS - 1;
        boolean goes = going >= 0 && unit.isPresent(going, p);
        boolean comes = coming < unit.discharges && unit.isPresent(coming, p);
        if (goes && comes) {
          near.replace(unit.scale[going][p], unit.scale[coming][p]);
        } else if (goes) {
          near.remove(unit.scale[going][p]);
        } else if (comes) {
          near.add(unit.scale[coming][p]);
        }
        if (d >= 0) {
          double median = near.count() < FEWEST_NEAR ? 1 : near.median();
          usual[d][p] = Math.max(SMALLEST, Math.min(LARGEST, median));
        }
      }
    }
    return usual;
  }
}
