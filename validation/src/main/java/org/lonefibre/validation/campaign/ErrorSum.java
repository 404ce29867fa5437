package org.lonefibre.validation.campaign;

/**
 * Errors of intervals.
 *
 * @param count number of intervals
 * @param recordings recordings they are from; each takes one mean
 * @param squares sum of squared deviations from the mean of their recording
 * @param statedSquares sum of squared stated errors; 0 if none are stated
 */
record ErrorSum(int count, int recordings, double squares, double statedSquares) {

  static final ErrorSum NONE = new ErrorSum(0, 0, 0, 0);

  /** Of one recording; {@code stated} may be empty. */
  static ErrorSum of(double[] errors, double[] stated) {
    if (errors.length < 2) {
      return NONE;
    }
    double mean = 0;
    for (double error : errors) {
      mean += error / errors.length;
    }
    double squares = 0;
    for (double error : errors) {
      squares += (error - mean) * (error - mean);
    }
    double statedSquares = 0;
    for (double error : stated) {
      statedSquares += error * error;
    }
    return new ErrorSum(errors.length, 1, squares, statedSquares);
  }

  ErrorSum plus(ErrorSum other) {
    return new ErrorSum(
        count + other.count,
        recordings + other.recordings,
        squares + other.squares,
        statedSquares + other.statedSquares);
  }

  /** Standard deviation of the real error. */
  double realUs() {
    return count <= recordings ? Double.NaN : Math.sqrt(squares / (count - recordings));
  }

  /** Root of the mean squared stated error. */
  double statedUs() {
    return count == 0 ? Double.NaN : Math.sqrt(statedSquares / count);
  }
}
