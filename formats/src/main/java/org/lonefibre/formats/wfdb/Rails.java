package org.lonefibre.formats.wfdb;

import org.jspecify.annotations.Nullable;

/**
 * Range and step of a converter, in the unit of the samples.
 *
 * @param low lowest value it can store
 * @param high highest
 * @param step between two values
 */
record Rails(double low, double high, double step) {

  /** More steps than a file of 24 bits can hold tell nothing of a converter. */
  private static final double MOST_STEPS = (1 << 24) - 1;

  /**
   * The range of a channel: that of the resolution the header states if no sample lies outside,
   * else that of the format; null if its parts differ, or if no range can be told.
   */
  static @Nullable Rails of(ChannelPieces channel, double[] factors) {
    Rails common = null;
    for (int p = 0; p < factors.length; p++) {
      Rails own = of(channel.pieces.get(p), factors[p]);
      if (own == null || (common != null && !own.equals(common))) {
        return null;
      }
      common = own;
    }
    return common;
  }

  private static @Nullable Rails of(ChannelPieces.Piece piece, double factor) {
    WfdbSignalLine line = piece.line();
    WfdbFormat format = piece.file().format;
    double highest = format.isDifferences() ? Integer.MAX_VALUE : format.highest();
    double low = -highest;
    double high = highest;
    if (line.resolutionBits() > 0) {
      double half = Math.scalb(1.0, line.resolutionBits() - 1);
      double statedLow = Math.max(low, line.zero() - half);
      double statedHigh = Math.min(high, line.zero() + half - 1);
      if (piece.scan().liesWithin(statedLow, statedHigh)) {
        low = statedLow;
        high = statedHigh;
      }
    }
    if (!(high > low) || high - low > MOST_STEPS) {
      return null;
    }
    double one = (low - line.baseline()) * factor;
    double other = (high - line.baseline()) * factor;
    return new Rails(Math.min(one, other), Math.max(one, other), Math.abs(factor));
  }
}
