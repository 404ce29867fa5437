package org.lonefibre.signal.robust;

/**
 * The value of a given rank, by quickselect (Hoare 1961), in linear time on average. The parts are
 * made without a branch (after Lomuto), for which of two random values is larger no processor
 * guesses.
 */
final class Selection {

  private Selection() {}

  /**
   * Rearranges the values so that the one of the given rank stands at its place, no larger one
   * before it and no smaller one behind it.
   *
   * @param values finite values, rearranged
   * @param length how many of them count, from 0 on
   * @param rank 0 for the smallest
   */
  static double select(double[] values, int length, int rank) {
    int low = 0;
    int high = length - 1;
    while (low < high) {
      double pivot = pivot(values, low, high);
      int equal = smallerFirst(values, low, high, pivot);
      if (rank < equal) {
        high = equal - 1;
      } else {
        boolean few = equal <= low + (high - low) / 8;
        int larger = few ? equalFirst(values, equal, high, pivot) : equal;
        if (rank < larger) {
          return values[rank];
        }
        low = larger;
      }
    }
    return values[rank];
  }

  /** Values below the pivot first; returns where the others begin. */
  private static int smallerFirst(double[] values, int low, int high, double pivot) {
    int border = low;
    for (int i = low; i <= high; i++) {
      double value = values[i];
      values[i] = values[border];
      values[border] = value;
      // The sign of the difference, as a number: 1 below the pivot.
      border += (int) (Double.doubleToRawLongBits(value - pivot) >>> 63);
    }
    return border;
  }

  /** Of values not below the pivot those that equal it first; returns where the others begin. */
  private static int equalFirst(double[] values, int low, int high, double pivot) {
    int border = low;
    for (int i = low; i <= high; i++) {
      double value = values[i];
      if (value == pivot) {
        values[i] = values[border];
        values[border++] = value;
      }
    }
    return border;
  }

  /**
   * Median of three medians of three, spread over the range: sorted and saw-tooth input is fine.
   */
  private static double pivot(double[] values, int low, int high) {
    int step = (high - low) / 8;
    if (step == 0) {
      return values[low + (high - low) / 2];
    }
    return middle(
        middle(values[low], values[low + step], values[low + 2 * step]),
        middle(values[low + 3 * step], values[low + 4 * step], values[low + 5 * step]),
        middle(values[low + 6 * step], values[low + 7 * step], values[high]));
  }

  private static double middle(double a, double b, double c) {
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  }
}
