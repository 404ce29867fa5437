package org.lonefibre.formats.mat;

import org.lonefibre.formats.reader.SampleSource;
import us.hebi.matlab.mat.types.MatlabType;
import us.hebi.matlab.mat.types.Matrix;

/** One channel of a matrix, whose longer side is time; MATLAB stores column after column. */
final class MatrixSource implements SampleSource {

  private final Matrix matrix;
  private final int count;
  private final int first;
  private final int step;

  MatrixSource(Matrix matrix, int channel) {
    this.matrix = matrix;
    boolean timeDown = matrix.getNumRows() > matrix.getNumCols();
    this.count = Math.max(matrix.getNumRows(), matrix.getNumCols());
    this.first = timeDown ? channel * count : channel;
    this.step = timeDown ? 1 : matrix.getNumRows();
  }

  @Override
  public long count() {
    return count;
  }

  @Override
  public Missing missing() {
    MatlabType type = matrix.getType();
    return type == MatlabType.Double || type == MatlabType.Single
        ? Missing.NOT_FINITE
        : Missing.NEVER;
  }

  @Override
  public void read(long from, double[] destination, int offset, int length) {
    int at = first + Math.toIntExact(from) * step;
    for (int k = 0; k < length; k++) {
      destination[offset + k] = matrix.getDouble(at + k * step);
    }
  }
}
