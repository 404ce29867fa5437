package org.lonefibre.formats.text;

import java.util.ArrayList;
import java.util.List;

/** A column of numbers that grows in blocks, so that growing copies nothing. */
final class NumberColumn {

  private static final int SHIFT = 15;
  private static final int BLOCK = 1 << SHIFT;
  private static final int MASK = BLOCK - 1;

  private final List<double[]> blocks = new ArrayList<>();
  private int size;

  void add(double value) {
    if ((size & MASK) == 0) {
      blocks.add(new double[BLOCK]);
    }
    blocks.get(size >> SHIFT)[size & MASK] = value;
    size = Math.addExact(size, 1);
  }

  int size() {
    return size;
  }

  double at(int row) {
    return blocks.get(row >> SHIFT)[row & MASK];
  }

  /** Copies numbers, each multiplied by a factor. */
  void copy(int first, double factor, double[] destination, int offset, int length) {
    int done = 0;
    while (done < length) {
      int at = first + done;
      int run = Math.min(length - done, BLOCK - (at & MASK));
      double[] block = blocks.get(at >> SHIFT);
      for (int k = 0; k < run; k++) {
        destination[offset + done + k] = factor * block[(at & MASK) + k];
      }
      done += run;
    }
  }
}
