package org.lonefibre.signal.robust;

/**
 * The median of the few values that are in a window at present; values come and go one at a time.
 *
 * <ul>
 *   <li>Kept sorted: coming and going costs a search and a shift, the median nothing.
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
public final class SlidingMedian {

  private final double[] sorted;
  private int count;

  /**
   * An empty window.
   *
   * @param capacity most values that are in it at once
   */
  public SlidingMedian(int capacity) {
    this.sorted = new double[capacity];
  }

  /** Number of values in the window. */
  public int count() {
    return count;
  }

  /**
   * A value comes.
   *
   * @throws IllegalStateException if the window is full
   */
  public void add(double value) {
    if (count == sorted.length) {
      throw new IllegalStateException("the window holds " + count + " values already");
    }
    int at = below(value);
    System.arraycopy(sorted, at, sorted, at + 1, count - at);
    sorted[at] = value;
    count++;
  }

  /**
   * A value goes.
   *
   * @throws IllegalArgumentException if it is not in the window
   */
  public void remove(double value) {
    int at = below(value);
    if (at == count || sorted[at] != value) {
      throw new IllegalArgumentException(value + " is not in the window");
    }
    System.arraycopy(sorted, at + 1, sorted, at, count - at - 1);
    count--;
  }

  /**
   * A value goes and another comes: one look and one shift do for both.
   *
   * @throws IllegalArgumentException if the first is not in the window
   */
  public void replace(double going, double coming) {
    int out = 0;
    int in = 0;
    for (int i = 0; i < count; i++) {
      out += isBelow(sorted[i], going);
      in += isBelow(sorted[i], coming);
    }
    if (out == count || sorted[out] != going) {
      throw new IllegalArgumentException(going + " is not in the window");
    }
    if (in > out) {
      in--;
      System.arraycopy(sorted, out + 1, sorted, out, in - out);
    } else {
      System.arraycopy(sorted, in, sorted, in + 1, out - in);
    }
    sorted[in] = coming;
  }

  /** How many values are below another: of so few, counting is quicker than a search. */
  private int below(double value) {
    int below = 0;
    for (int i = 0; i < count; i++) {
      below += isBelow(sorted[i], value);
    }
    return below;
  }

  /** 1 if one value is below another, else 0: the sign of the difference, without a branch. */
  private static int isBelow(double value, double other) {
    return (int) (Double.doubleToRawLongBits(value - other) >>> 63);
  }

  /**
   * The median, of an even number the mean of the middle two.
   *
   * @throws IllegalStateException if there is no value
   */
  public double median() {
    if (count == 0) {
      throw new IllegalStateException("no value in the window");
    }
    double upper = sorted[count / 2];
    return count % 2 == 1 ? upper : sorted[count / 2 - 1] + (upper - sorted[count / 2 - 1]) / 2;
  }
}
