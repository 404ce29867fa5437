package org.lonefibre.formats.writer;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Recording;

/**
 * Finds in which form a recording can be written without changing a sample.
 *
 * <ol>
 *   <li>A file that says how wide its numbers are keeps that width.
 *   <li>A channel that knows its rails and its step needs as many bits as it has steps.
 *   <li>A channel that knows neither, as in text, may be decimal: all samples are whole multiples
 *       of a power of ten of its unit, down to {@value #MOST_DECIMALS} decimals. That power is its
 *       step then.
 *   <li>Everything else is real numbers, and EDF would round them: refused.
 * </ol>
 */
final class WholeSteps {

  private static final int MOST_DECIMALS = 9;

  /** Of the number itself; a few roundings of a double. */
  private static final double ROUNDING = 4e-15;

  private static final int BLOCK = 1 << 16;

  final Recording recording;
  final EdfForm form;

  private WholeSteps(Recording recording, EdfForm form) {
    this.recording = recording;
    this.form = form;
  }

  /**
   * The form, and the recording with the steps that were found.
   *
   * @throws IllegalArgumentException if no form holds it without a change; the message says why
   */
  static WholeSteps of(Recording recording) throws IOException {
    int stored = recording instanceof StoredForm form ? form.storedBits() : 0;
    int bits = Math.max(16, stored);
    List<Channel> channels = new ArrayList<>();
    for (Channel channel : recording.channels()) {
      Channel stepped = isStepped(channel) ? channel : decimal(recording, channel);
      bits = Math.max(bits, stored > 0 ? stored : bits(stepped));
      channels.add(stepped);
    }
    if (bits > 24) {
      throw new IllegalArgumentException(
          "the samples have " + bits + " bits, and BDF+ holds 24; they would be changed");
    }
    Recording view =
        new RecordingView(
            recording, recording.findStart().orElse(null), channels, recording.annotations());
    return new WholeSteps(view, bits > 16 ? EdfForm.BDF_PLUS : EdfForm.EDF_PLUS);
  }

  private static boolean isStepped(Channel channel) {
    Double step = channel.resolutionUv();
    return step != null && step > 0 && channel.lowRailUv() != null && channel.highRailUv() != null;
  }

  private static int bits(Channel channel) {
    Double low = channel.lowRailUv();
    Double high = channel.highRailUv();
    Double step = channel.resolutionUv();
    if (low == null || high == null || step == null) {
      return 64;
    }
    double steps = Math.rint((high - low) / step);
    return steps < EdfForm.EDF_PLUS.steps() + 1.0
        ? 16
        : (int) Math.ceil(Math.log(steps) / Math.log(2));
  }

  private static Channel decimal(Recording recording, Channel channel) throws IOException {
    double factor =
        channel.calibration() == Calibration.MICROVOLT
            ? AmplitudeUnit.microvolts(channel.unit()).orElse(1)
            : 1;
    int decimals = 0;
    double power = 1;
    double largest = 0;
    double[] block = new double[BLOCK];
    for (long at = 0; at < channel.sampleCount(); at += BLOCK) {
      int length = (int) Math.min(BLOCK, channel.sampleCount() - at);
      recording.read(channel, at, block, 0, length);
      for (int k = 0; k < length; k++) {
        double value = block[k] / factor;
        while (!isWhole(value * power)) {
          decimals++;
          power *= 10;
          if (decimals > MOST_DECIMALS) {
            throw new IllegalArgumentException(
                "the samples of channel "
                    + channel.number()
                    + " are real numbers, not steps of a converter; EDF and BDF would round them");
          }
        }
        largest = Math.max(largest, Math.abs(value));
      }
    }
    double most = largest * power;
    EdfForm form = most <= EdfForm.EDF_PLUS.highest ? EdfForm.EDF_PLUS : EdfForm.BDF_PLUS;
    if (most > form.highest) {
      throw new IllegalArgumentException(
          "the samples of channel "
              + channel.number()
              + " are decimal numbers of more digits than the 24 bits of BDF+ hold");
    }
    double step = factor / power;
    return new Channel(
        channel.number(),
        channel.label(),
        channel.unit(),
        channel.calibration(),
        channel.timeBase(),
        channel.sampleCount(),
        channel.segments(),
        form.lowest * step,
        form.highest * step,
        step,
        channel.prefilter());
  }

  private static boolean isWhole(double value) {
    return Math.abs(value - Math.rint(value)) <= ROUNDING * Math.abs(value);
  }
}
