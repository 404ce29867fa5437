package org.lonefibre.formats.hdf;

import io.jhdf.api.Dataset;
import io.jhdf.object.datatype.DataType;
import io.jhdf.object.datatype.FixedPoint;
import io.jhdf.object.datatype.FloatingPoint;
import java.math.BigInteger;

/**
 * Whether a data set holds numbers as processors have them. HDF5 can describe others (12 bits of
 * 16, another exponent), whose description the library passes over.
 */
final class PlainNumbers {

  private PlainNumbers() {}

  static boolean holds(Dataset dataset) {
    DataType type = dataset.getDataType();
    if (type instanceof FixedPoint fixed) {
      int bytes = fixed.getSize();
      return (bytes == 1 || bytes == 2 || bytes == 4 || bytes == 8)
          && fixed.getJavaType() != BigInteger.class
          && fixed.getBitOffset() == 0
          && fixed.getBitPrecision() == 8 * bytes;
    }
    return type instanceof FloatingPoint real && isIeee(real);
  }

  /** IEEE 754: sign, exponent and mantissa follow each other, and the first bit is implied. */
  private static boolean isIeee(FloatingPoint real) {
    int exponent =
        switch (real.getSize()) {
          case 2 -> 5;
          case 4 -> 8;
          case 8 -> 11;
          default -> 0;
        };
    int bits = 8 * real.getSize();
    int mantissa = bits - 1 - exponent;
    return exponent > 0
        && real.getBitOffset() == 0
        && real.getBitPrecision() == bits
        && real.getSignLocation() == bits - 1
        && real.getExponentLocation() == mantissa
        && real.getExponentSize() == exponent
        && real.getMantissaLocation() == 0
        && real.getMantissaSize() == mantissa
        && real.getMantissaNormalization() == 2
        && real.getExponentBias() == (1 << exponent - 1) - 1;
  }
}
