package org.lonefibre.formats.writer;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * The numbers a channel is stored as.
 *
 * <ul>
 *   <li>A channel that knows its rails and its step keeps the converter's own numbers.
 *   <li>One that does not is scaled to its lowest and highest sample over all steps there are.
 *   <li>The encoding uses the exact step, not the eight characters of the header, so the numbers
 *       are right even where the header has to round.
 * </ul>
 */
final class DigitalScale {

  private static final int MOST_CHARACTERS = 8;
  private static final int BLOCK = 1 << 16;

  final String physicalLow;
  final String physicalHigh;
  final int digitalLow;
  final int digitalHigh;
  private final double low;
  private final double step;

  private DigitalScale(
      String physicalLow,
      String physicalHigh,
      int digitalLow,
      int digitalHigh,
      double low,
      double step) {
    if (new BigDecimal(physicalLow).compareTo(new BigDecimal(physicalHigh)) == 0) {
      throw new IllegalArgumentException(
          "a range from " + physicalLow + " to " + physicalHigh + " cannot be written");
    }
    this.physicalLow = physicalLow;
    this.physicalHigh = physicalHigh;
    this.digitalLow = digitalLow;
    this.digitalHigh = digitalHigh;
    this.low = low;
    this.step = step;
  }

  static DigitalScale of(Recording recording, Channel channel, EdfForm form) throws IOException {
    Double low = channel.lowRailUv();
    Double high = channel.highRailUv();
    Double step = channel.resolutionUv();
    if (low != null && high != null && step != null && step > 0 && high > low) {
      double steps = Math.rint((high - low) / step);
      if (steps > form.steps()) {
        throw new IllegalArgumentException(
            "channel "
                + channel.number()
                + " has "
                + (long) steps
                + " steps, "
                + form
                + " holds "
                + form.steps());
      }
      double first = Math.rint(low / step);
      boolean fits = first >= form.lowest && first + steps <= form.highest;
      int digitalLow = fits ? (int) first : form.lowest;
      return new DigitalScale(
          number(low, RoundingMode.HALF_EVEN),
          number(high, RoundingMode.HALF_EVEN),
          digitalLow,
          digitalLow + (int) steps,
          low,
          step);
    }
    return spread(recording, channel, form);
  }

  /** Lowest to highest sample over all steps. */
  private static DigitalScale spread(Recording recording, Channel channel, EdfForm form)
      throws IOException {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    double[] block = new double[BLOCK];
    for (long at = 0; at < channel.sampleCount(); at += BLOCK) {
      int length = (int) Math.min(BLOCK, channel.sampleCount() - at);
      recording.read(channel, at, block, 0, length);
      for (int k = 0; k < length; k++) {
        least = Math.min(least, block[k]);
        most = Math.max(most, block[k]);
      }
    }
    if (!(most > least)) {
      double centre = Double.isFinite(least) ? least : 0;
      least = centre - 1;
      most = centre + 1;
    }
    String low = number(least, RoundingMode.FLOOR);
    String high = number(most, RoundingMode.CEILING);
    double from = Double.parseDouble(low);
    return new DigitalScale(
        low,
        high,
        form.lowest,
        form.highest,
        from,
        (Double.parseDouble(high) - from) / form.steps());
  }

  /** The number in at most eight characters. */
  private static String number(double value, RoundingMode rounding) {
    BigDecimal exact =
        rounding == RoundingMode.HALF_EVEN ? BigDecimal.valueOf(value) : new BigDecimal(value);
    for (int digits = MOST_CHARACTERS - 1; digits >= 0; digits--) {
      String text = exact.setScale(digits, rounding).stripTrailingZeros().toPlainString();
      if (text.length() <= MOST_CHARACTERS) {
        return text;
      }
    }
    throw new IllegalArgumentException(
        "a range limit of " + value + " does not fit the eight characters of EDF");
  }

  /**
   * Encodes samples, lowest byte first.
   *
   * @throws IllegalArgumentException if a sample is not a number
   */
  void encode(double[] samples, byte[] bytes, int sampleBytes) {
    for (int k = 0; k < samples.length; k++) {
      if (!Double.isFinite(samples[k])) {
        throw new IllegalArgumentException("a sample is " + samples[k] + ", not a number");
      }
      double exact = digitalLow + (samples[k] - low) / step;
      int value = (int) Math.max(digitalLow, Math.min(digitalHigh, Math.rint(exact)));
      for (int b = 0; b < sampleBytes; b++) {
        bytes[sampleBytes * k + b] = (byte) (value >> (8 * b));
      }
    }
  }
}
