package org.lonefibre.analysis.conditioning;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a file says it was filtered with: {@code HP:500Hz LP:10kHz N:50Hz}, and what writers make of
 * it: spaces, {@code =}, a decimal comma, {@code DC}, {@code k} for kHz, small letters, no unit
 * (Hz).
 */
final class Prefilter {

  private static final String VALUE =
      "\\s*(?:filter)?\\s*[:=]?\\s*(\\d+(?:[.,]\\d+)?(?:e[+-]?\\d+)?)\\s*(k\\s*(?:hz)?|hz)?(?![a-z0-9])";

  private static final Pattern HIGH_PASS =
      pattern("hp|hpf|high[- ]?pass|highpass|locut|low[- ]?cut");
  private static final Pattern LOW_PASS = pattern("lp|lpf|low[- ]?pass|lowpass|hicut|high[- ]?cut");
  private static final Pattern NOTCH = pattern("n|notch");

  private final String text;

  Prefilter(String text) {
    this.text = text.toLowerCase(Locale.ROOT);
  }

  OptionalDouble findHighPassHz() {
    return find(HIGH_PASS);
  }

  OptionalDouble findLowPassHz() {
    return find(LOW_PASS);
  }

  OptionalDouble findNotchHz() {
    return find(NOTCH);
  }

  private static Pattern pattern(String names) {
    return Pattern.compile("(?<![a-z])(?:" + names + ")(?![a-z])" + VALUE);
  }

  private OptionalDouble find(Pattern pattern) {
    Matcher matcher = pattern.matcher(text);
    if (!matcher.find()) {
      return OptionalDouble.empty();
    }
    double value = Double.parseDouble(matcher.group(1).replace(',', '.'));
    String unit = matcher.group(2);
    double hz = unit != null && unit.startsWith("k") ? value * 1000 : value;
    return hz > 0 && hz < 1e9 ? OptionalDouble.of(hz) : OptionalDouble.empty();
  }
}
