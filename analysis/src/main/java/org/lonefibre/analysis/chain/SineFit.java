package org.lonefibre.analysis.chain;

/** A sine of known frequency and an offset, fitted by least squares. */
record SineFit(double amplitude, double residual) {

  /** Fits samples {@code from} to {@code to}; the frequency is in radians a sample. */
  static SineFit of(double[] signal, int from, int to, double step) {
    double[][] normal = new double[3][4];
    for (int i = from; i < to; i++) {
      double[] row = {Math.sin(step * i), Math.cos(step * i), 1, signal[i]};
      for (int r = 0; r < 3; r++) {
        for (int c = 0; c < 4; c++) {
          normal[r][c] += row[r] * row[c];
        }
      }
    }
    double[] found = solve(normal);
    double squares = 0;
    for (int i = from; i < to; i++) {
      double rest =
          signal[i] - found[0] * Math.sin(step * i) - found[1] * Math.cos(step * i) - found[2];
      squares += rest * rest;
    }
    return new SineFit(Math.hypot(found[0], found[1]), Math.sqrt(squares / (to - from)));
  }

  private static double[] solve(double[][] m) {
    for (int p = 0; p < 3; p++) {
      for (int r = 0; r < 3; r++) {
        if (r != p) {
          double factor = m[r][p] / m[p][p];
          for (int c = p; c < 4; c++) {
            m[r][c] -= factor * m[p][c];
          }
        }
      }
    }
    return new double[] {m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]};
  }
}
