package org.lonefibre.analysis.discharge;

/** Steep phases found in a site, in order of position; a column of numbers for each property. */
final class SpikeTrain {

  /** Label of a spike that no shape class holds. */
  static final int NONE = -1;

  final int count;

  /** Position of the steepest point, in samples of the channel. */
  final double[] position;

  /** Signed height of the steep phase, in the unit of the samples. */
  final double[] height;

  /** Index of the continuous segment it lies in. */
  final int[] segment;

  /** Shape class, or {@link #NONE}. */
  final int[] label;

  /** Motor unit it was given to, or {@link #NONE}. */
  final int[] unit;

  SpikeTrain(double[] position, double[] height, int[] segment) {
    this.count = position.length;
    this.position = position;
    this.height = height;
    this.segment = segment;
    this.label = new int[count];
    this.unit = new int[count];
    java.util.Arrays.fill(label, NONE);
    java.util.Arrays.fill(unit, NONE);
  }

  /** Index of the first spike at or after a position. */
  int firstAtOrAfter(double wanted) {
    int low = 0;
    int high = count;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (position[middle] < wanted) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
