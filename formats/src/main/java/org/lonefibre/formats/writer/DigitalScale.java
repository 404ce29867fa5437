package org.lonefibre.formats.writer;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * The numbers a channel is stored as.
 *
 * <ul>
 *   <li>A channel whose file states its range keeps what is stated, character by character.
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
  final String unit;
  private final double low;
  private final double step;

  /** What is stored stays between these; samples of a file may lie outside its stated range. */
  private final int least;

  private final int most;

  private DigitalScale(
      String physicalLow,
      String physicalHigh,
      int digitalLow,
      int digitalHigh,
      String unit,
      double low,
      double step,
      int least,
      int most) {
    if (new BigDecimal(physicalLow).compareTo(new BigDecimal(physicalHigh)) == 0) {
      throw new IllegalArgumentException(
          "a range from " + physicalLow + " to " + physicalHigh + " cannot be written");
    }
    this.physicalLow = physicalLow;
    this.physicalHigh = physicalHigh;
    this.digitalLow = digitalLow;
    this.digitalHigh = digitalHigh;
    this.unit = unit;
    this.low = low;
    this.step = step;
    this.least = least;
    this.most = most;
  }

  static DigitalScale of(Recording recording, Channel channel, EdfForm form) throws IOException {
    if (recording instanceof StoredForm stored && stored.storedBits() == 8 * form.sampleBytes) {
      Optional<StoredForm.DigitalRange> range = stored.findDigitalRange(channel);
      if (range.isPresent()) {
        return stated(range.get(), channel, form);
      }
    }
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
          unit(channel),
          low,
          step,
          digitalLow,
          digitalLow + (int) steps);
    }
    return spread(recording, channel, form);
  }

  /** The range as the file states it; the gain is the one with which its reader reads. */
  private static DigitalScale stated(StoredForm.DigitalRange range, Channel channel, EdfForm form) {
    double factor =
        channel.calibration() == Channel.Calibration.MICROVOLT
            ? AmplitudeUnit.microvolts(channel.unit()).orElse(1)
            : 1;
    BigDecimal low = new BigDecimal(range.physicalLow());
    BigDecimal high = new BigDecimal(range.physicalHigh());
    double gain =
        high.subtract(low).doubleValue() / ((double) range.digitalHigh() - range.digitalLow());
    return new DigitalScale(
        range.physicalLow(),
        range.physicalHigh(),
        range.digitalLow(),
        range.digitalHigh(),
        channel.unit().replace('\u00b5', 'u').replace('\u03bc', 'u'),
        low.doubleValue() * factor,
        gain * factor,
        form.lowest,
        form.highest);
  }

  private static String unit(Channel channel) {
    return channel.calibration() == Channel.Calibration.MICROVOLT ? "uV" : channel.unit();
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
        unit(channel),
        from,
        (Double.parseDouble(high) - from) / form.steps(),
        form.lowest,
        form.highest);
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
      int value = (int) Math.max(least, Math.min(most, Math.rint(exact)));
      for (int b = 0; b < sampleBytes; b++) {
        bytes[sampleBytes * k + b] = (byte) (value >> (8 * b));
      }
    }
  }
}
