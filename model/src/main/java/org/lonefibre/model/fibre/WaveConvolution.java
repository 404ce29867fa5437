package org.lonefibre.model.fibre;

/**
 * Convolves a sequence with the slope of one term, A k (n u^(n-1) - u^n) exp(-u), u = k z, in one
 * pass.
 *
 * <p>The sums S_m = sum over j of j^m r^j g(now - j), r = exp(-k step), follow from the last ones
 * by the binomial law: S_m(next) = r (sum over i of C(m, i) S_i), and S_0 takes the new value. So
 * no kernel is cut off and the cost does not grow with its length.
 */
final class WaveConvolution {

  private final int power;
  private final double decay;
  private final double lowerWeight;
  private final double upperWeight;
  private final double[][] binomial;
  private final double[] sums;

  WaveConvolution(IntracellularPotential.Term term, double stepMm) {
    power = term.power();
    double step = term.scalePerMm() * stepMm;
    decay = StrictMath.exp(-step);
    double size = term.sizeMv() * term.scalePerMm() * stepMm;
    lowerWeight = size * power * StrictMath.pow(step, power - 1);
    upperWeight = -size * StrictMath.pow(step, power);
    sums = new double[power + 1];
    binomial = new double[power + 1][power + 1];
    for (int m = 0; m <= power; m++) {
      binomial[m][0] = 1;
      for (int i = 1; i <= m; i++) {
        binomial[m][i] = binomial[m - 1][i - 1] + binomial[m - 1][i];
      }
    }
  }

  /** Takes the next value of the sequence and gives the convolution there. */
  double next(double value) {
    return power == 3 ? nextCubic(value) : nextAny(value);
  }

  /** The same sums in the same order, written out. */
  private double nextCubic(double value) {
    double s0 = sums[0];
    double s1 = sums[1];
    double s2 = sums[2];
    double s3 = sums[3];
    s3 = decay * (s0 + 3 * s1 + 3 * s2 + s3);
    s2 = decay * (s0 + 2 * s1 + s2);
    sums[3] = s3;
    sums[2] = s2;
    sums[1] = decay * (s0 + s1);
    sums[0] = decay * s0 + value;
    return lowerWeight * s2 + upperWeight * s3;
  }

  private double nextAny(double value) {
    for (int m = power; m >= 0; m--) {
      double[] row = binomial[m];
      double sum = 0;
      for (int i = 0; i <= m; i++) {
        sum += row[i] * sums[i];
      }
      sums[m] = decay * sum;
    }
    sums[0] += value;
    return lowerWeight * sums[power - 1] + upperWeight * sums[power];
  }
}
