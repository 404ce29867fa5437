package org.lonefibre.analysis.reference;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** A value as it is written beside its limit. Thread rule: no state. */
public final class BesideLimit {

  private static final int MOST_PLACES = 6;

  private BesideLimit() {}

  /**
   * The value to 0.1, or to as many decimals as it takes to see on which side of the limit it lies;
   * half is rounded up.
   *
   * @param valueUs the value, in us
   * @param limitUs its limit, in us
   */
  public static String text(double valueUs, double limitUs) {
    BigDecimal value = BigDecimal.valueOf(valueUs);
    BigDecimal limit = BigDecimal.valueOf(limitUs);
    int places = 1;
    while (places < MOST_PLACES
        && value.compareTo(limit) != 0
        && value.setScale(places, RoundingMode.HALF_UP).compareTo(limit) == 0) {
      places++;
    }
    return value.setScale(places, RoundingMode.HALF_UP).toPlainString();
  }
}
