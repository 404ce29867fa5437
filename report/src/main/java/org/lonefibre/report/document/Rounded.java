package org.lonefibre.report.document;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.BesideLimit;

/**
 * The only place where a number loses digits, and only for the eye: comparisons with limits are
 * made before, on the unrounded value, and {@code analysis.json} keeps every digit.
 *
 * <p>Jitter is shown to 0.1 us: published limits are given to 0.1 us (the tables of Gilchrist et
 * al. 1992 and of later multicentre studies), so that a reader can compare by eye, although its own
 * standard error with 50 to 100 differences is some ten times coarser (0.915/sqrt(n), computed for
 * Gaussian series). Where 0.1 us would hide on which side of a limit a value lies, {@link
 * BesideLimit} writes as many digits as it takes. Other steps are engineering choices. Half is
 * rounded up, always with a decimal point, and nothing is ever shown as minus zero.
 */
public final class Rounded {

  /** Stands where there is no number. */
  public static final String NONE = "–";

  private Rounded() {}

  /** Jitter, its interval and floor without unit, to 0.1 us. */
  public static String jitter(@Nullable Double jitterUs) {
    return decimals(jitterUs, 1);
  }

  /** Jitter with its unit. */
  public static String jitterWithUnit(@Nullable Double jitterUs) {
    return withUnit(jitter(jitterUs), "µs");
  }

  /** A mean interval or latency without unit, to 1 us. */
  public static String interval(@Nullable Double intervalUs) {
    return decimals(intervalUs, 0);
  }

  /** A percentage without sign: one decimal below 10, none above; 0 only if it is 0. */
  public static String percent(@Nullable Double valuePercent) {
    if (valuePercent == null) {
      return NONE;
    }
    if (valuePercent > 0 && valuePercent < 0.05) {
      return "<0.1";
    }
    return decimals(valuePercent, valuePercent < 9.95 && valuePercent != 0 ? 1 : 0);
  }

  /** A voltage with its unit: uV below 1 mV, mV above, three digits. */
  public static String voltage(@Nullable Double voltageUv) {
    if (voltageUv == null) {
      return NONE;
    }
    double size = Math.abs(voltageUv);
    return size < 999.5
        ? withUnit(decimals(voltageUv, size < 9.95 ? 1 : 0), "µV")
        : withUnit(decimals(voltageUv / 1000, size < 9995 ? 2 : 1), "mV");
  }

  /** A rate of discharge or stimulation with its unit, to 0.1 Hz. */
  public static String rate(@Nullable Double rateHz) {
    return withUnit(decimals(rateHz, 1), "Hz");
  }

  /** A corner or sampling frequency with its unit, every digit that it has up to six. */
  public static String frequency(@Nullable Double frequencyHz) {
    return withUnit(grouped(shortest(frequencyHz, 6)), "Hz");
  }

  /** A probability, never shown as 0 or 1. */
  public static String probability(@Nullable Double probability) {
    if (probability == null) {
      return NONE;
    }
    if (probability > 0.99) {
      return ">0.99";
    }
    return probability < 0.01 ? "<0.01" : decimals(probability, 2);
  }

  /** A duration with its unit, to 0.1 s. */
  public static String duration(double durationS) {
    return withUnit(decimals(durationS, 1), "s");
  }

  /** Any number, as few digits as it has, at most so many decimals. */
  public static String shortest(@Nullable Double value, int mostDecimals) {
    if (value == null) {
      return NONE;
    }
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(mostDecimals, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }

  /** A value to a number of decimals. */
  public static String decimals(@Nullable Double value, int places) {
    if (value == null) {
      return NONE;
    }
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(places, RoundingMode.HALF_UP);
    return rounded.signum() == 0
        ? BigDecimal.ZERO.setScale(places).toPlainString()
        : rounded.toPlainString();
  }

  private static String grouped(String digits) {
    int point = digits.indexOf('.');
    String whole = point < 0 ? digits : digits.substring(0, point);
    if (whole.length() < 5 || !whole.chars().allMatch(Character::isDigit)) {
      return digits;
    }
    String tail = point < 0 ? "" : digits.substring(point);
    return String.format(Locale.ROOT, "%,d", Long.parseLong(whole)) + tail;
  }

  private static String withUnit(String number, String unit) {
    return number.equals(NONE) ? number : number + " " + unit;
  }
}
