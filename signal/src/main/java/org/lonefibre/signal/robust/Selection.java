package org.lonefibre.signal.robust;

/** The value of a given rank, by quickselect (Hoare 1961), in linear time on average. */
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
      int i = low;
      int j = high;
      while (i <= j) {
        while (values[i] < pivot) {
          i++;
        }
        while (values[j] > pivot) {
          j--;
        }
        if (i <= j) {
          double swap = values[i];
          values[i] = values[j];
          values[j] = swap;
          i++;
          j--;
        }
      }
      if (rank <= j) {
        high = j;
      } else if (rank >= i) {
        low = i;
      } else {
        return values[rank];
      }
    }
    return values[rank];
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
