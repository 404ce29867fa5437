package org.lonefibre.signal.filter;

/**
 * Samples on their way through second-order sections, with the state between calls.
 *
 * <p>Direct form I, two sections at a time: the history of a section's output is the history of the
 * next one's input, and only one product and one sum wait for the sample before.
 *
 * <ul>
 *   <li>A state that has faded below 1e-150 is cleared, so that a constant signal costs no more
 *       than any other.
 *   <li>Thread rule: one run belongs to one thread.
 * </ul>
 */
final class FilterRun {

  private static final int CHUNK = 2048;
  private static final double FADED = 1e-150;

  private final double[] rows;
  private final int sections;

  /**
   * Six values for each pair of sections: the newest and the older value of its input, of its first
   * section's output and of its second's. The input's are the pair's own, for the pair before is a
   * whole chunk ahead.
   */
  private final double[] history;

  /** A run that starts from silence. */
  FilterRun(SecondOrderSections filter) {
    rows = filter.rows();
    sections = filter.sectionCount();
    history = new double[6 * ((sections + 1) / 2)];
  }

  /** Sets the state as if the input had been this value for ever (SciPy's {@code sosfilt_zi}). */
  void settle(double level) {
    double steady = level;
    for (int s = 0; s < sections; s++) {
      int h = 3 * s - s % 2;
      history[h] = steady;
      history[h + 1] = steady;
      int r = SecondOrderSections.WIDTH * s;
      double above = rows[r] + rows[r + 1] + rows[r + 2];
      // The zeros of a high-pass at 0 Hz cancel only to rounding; what is left is nothing.
      double passes = Math.abs(above) < 1e-13 * Math.abs(rows[r + 1]) ? 0 : above;
      steady *= passes / (1 + rows[r + 3] + rows[r + 4]);
      history[h + 2] = steady;
      history[h + 3] = steady;
    }
  }

  /** Filters samples in place, in the order of time. */
  void forward(double[] samples, int offset, int length) {
    for (int from = 0; from < length; from += CHUNK) {
      int count = Math.min(CHUNK, length - from);
      int s = 0;
      for (; s + 1 < sections; s += 2) {
        twoForward(s, samples, offset + from, count);
      }
      if (s < sections) {
        one(s, samples, offset + from, count, 1);
      }
      clearFaded();
    }
  }

  /** Filters samples in place, the last first. */
  void backward(double[] samples, int offset, int length) {
    for (int from = 0; from < length; from += CHUNK) {
      int count = Math.min(CHUNK, length - from);
      int last = offset + length - 1 - from;
      int s = 0;
      for (; s + 1 < sections; s += 2) {
        twoBackward(s, samples, last, count);
      }
      if (s < sections) {
        one(s, samples, last, count, -1);
      }
      clearFaded();
    }
  }

  private void twoForward(int s, double[] samples, int first, int count) {
    int r = SecondOrderSections.WIDTH * s;
    double b0 = rows[r];
    double b1 = rows[r + 1];
    double b2 = rows[r + 2];
    double a1 = rows[r + 3];
    double a2 = rows[r + 4];
    double d0 = rows[r + 5];
    double d1 = rows[r + 6];
    double d2 = rows[r + 7];
    double c1 = rows[r + 8];
    double c2 = rows[r + 9];
    int h = 3 * s;
    double x1 = history[h];
    double x2 = history[h + 1];
    double y1 = history[h + 2];
    double y2 = history[h + 3];
    double z1 = history[h + 4];
    double z2 = history[h + 5];
    for (int i = first; i < first + count; i++) {
      double x = samples[i];
      double y = ((b0 * x + (b1 * x1 + b2 * x2)) - a2 * y2) - a1 * y1;
      double z = ((d0 * y + (d1 * y1 + d2 * y2)) - c2 * z2) - c1 * z1;
      samples[i] = z;
      x2 = x1;
      x1 = x;
      y2 = y1;
      y1 = y;
      z2 = z1;
      z1 = z;
    }
    keep(h, x1, x2, y1, y2);
    history[h + 4] = z1;
    history[h + 5] = z2;
  }

  // The same loop the other way: a step of either sign would keep the bounds checks in it.
  private void twoBackward(int s, double[] samples, int last, int count) {
    int r = SecondOrderSections.WIDTH * s;
    double b0 = rows[r];
    double b1 = rows[r + 1];
    double b2 = rows[r + 2];
    double a1 = rows[r + 3];
    double a2 = rows[r + 4];
    double d0 = rows[r + 5];
    double d1 = rows[r + 6];
    double d2 = rows[r + 7];
    double c1 = rows[r + 8];
    double c2 = rows[r + 9];
    int h = 3 * s;
    double x1 = history[h];
    double x2 = history[h + 1];
    double y1 = history[h + 2];
    double y2 = history[h + 3];
    double z1 = history[h + 4];
    double z2 = history[h + 5];
    for (int i = last; i > last - count; i--) {
      double x = samples[i];
      double y = ((b0 * x + (b1 * x1 + b2 * x2)) - a2 * y2) - a1 * y1;
      double z = ((d0 * y + (d1 * y1 + d2 * y2)) - c2 * z2) - c1 * z1;
      samples[i] = z;
      x2 = x1;
      x1 = x;
      y2 = y1;
      y1 = y;
      z2 = z1;
      z1 = z;
    }
    keep(h, x1, x2, y1, y2);
    history[h + 4] = z1;
    history[h + 5] = z2;
  }

  private void one(int s, double[] samples, int first, int count, int step) {
    int r = SecondOrderSections.WIDTH * s;
    double b0 = rows[r];
    double b1 = rows[r + 1];
    double b2 = rows[r + 2];
    double a1 = rows[r + 3];
    double a2 = rows[r + 4];
    int h = 3 * s;
    double x1 = history[h];
    double x2 = history[h + 1];
    double y1 = history[h + 2];
    double y2 = history[h + 3];
    int i = first;
    for (int n = 0; n < count; n++) {
      double x = samples[i];
      double y = ((b0 * x + (b1 * x1 + b2 * x2)) - a2 * y2) - a1 * y1;
      samples[i] = y;
      x2 = x1;
      x1 = x;
      y2 = y1;
      y1 = y;
      i += step;
    }
    keep(h, x1, x2, y1, y2);
  }

  private void keep(int h, double x1, double x2, double y1, double y2) {
    history[h] = x1;
    history[h + 1] = x2;
    history[h + 2] = y1;
    history[h + 3] = y2;
  }

  private void clearFaded() {
    for (int h = 0; h < history.length; h++) {
      if (Math.abs(history[h]) < FADED) {
        history[h] = 0;
      }
    }
  }
}
