package org.lonefibre.model.leadfield;

import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * The blocks along a matrix' diagonal, factored: neighbours in a row of triangles act most on each
 * other, so solving their blocks alone is nearly solving the whole.
 */
final class BlockFactors {

  private static final int LARGEST = 240;

  /** An entry of a matrix. */
  @FunctionalInterface
  interface Entry {
    double at(int row, int column);
  }

  private final int[] starts;
  private final Block[] blocks;

  BlockFactors(int count, Entry entry) {
    int number = (count + LARGEST - 1) / LARGEST;
    starts = new int[number + 1];
    for (int b = 0; b <= number; b++) {
      starts[b] = (int) ((long) count * b / number);
    }
    blocks = new Block[number];
    IntStream.range(0, number)
        .parallel()
        .forEach(b -> blocks[b] = new Block(starts[b], starts[b + 1] - starts[b], entry));
  }

  /** Solves all blocks in place. */
  void solve(double[] vector, int from) {
    IntStream.range(0, blocks.length).parallel().forEach(b -> blocks[b].solve(vector, from));
  }

  private static final class Block {

    private final int start;
    private final int size;
    private final LinearSolverDense<DMatrixRMaj> solver;
    private final DMatrixRMaj right;
    private final DMatrixRMaj left;

    Block(int start, int size, Entry entry) {
      this.start = start;
      this.size = size;
      DMatrixRMaj matrix = new DMatrixRMaj(size, size);
      for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
          matrix.unsafe_set(i, j, entry.at(start + i, start + j));
        }
      }
      solver = LinearSolverFactory_DDRM.lu(size);
      if (!solver.setA(matrix)) {
        throw new LeadFieldException("a block of the boundary equation is singular");
      }
      right = new DMatrixRMaj(size, 1);
      left = new DMatrixRMaj(size, 1);
    }

    void solve(double[] vector, int from) {
      System.arraycopy(vector, from + start, right.data, 0, size);
      solver.solve(right, left);
      System.arraycopy(left.data, 0, vector, from + start, size);
    }
  }
}
