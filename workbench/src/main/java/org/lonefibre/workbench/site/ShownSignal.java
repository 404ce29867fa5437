package org.lonefibre.workbench.site;

import io.javalin.http.Context;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Objects;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.workbench.server.Refusal;

/**
 * A conditioned signal as a page asks for it: as a strip of minima and maxima, and as sound.
 *
 * <p>Thread rule: safe.
 */
public final class ShownSignal {

  private static final int MOST_COLUMNS = 4000;
  private static final double LONGEST_SOUND_S = 30;

  private final SiteTrace trace;

  ShownSignal(SiteTrace trace) {
    this.trace = trace;
  }

  /** A signal, read once for its minima and maxima. */
  public static ShownSignal of(ConditionedSignal signal) {
    return new ShownSignal(SiteTrace.of(signal));
  }

  static double parameter(Context context, String name) {
    try {
      double value = Double.parseDouble(Objects.requireNonNullElse(context.queryParam(name), ""));
      if (value >= 0 && value < 1e7) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Refused below.
    }
    throw new Refusal(400, name + " must be a number of seconds, 0 or more.");
  }

  /** Minima and maxima in columns, as 32-bit numbers in uV. */
  public void strip(Context context) {
    double startS = parameter(context, "startS");
    double endS = parameter(context, "endS");
    int columns = (int) Math.min(MOST_COLUMNS, parameter(context, "columns"));
    if (!(endS > startS) || columns < 1) {
      throw new Refusal(400, "startS must lie before endS, and there must be a column.");
    }
    SiteTrace.Columns values = trace.columns(startS, endS, columns);
    ByteBuffer bytes = ByteBuffer.allocate(8 * columns).order(ByteOrder.LITTLE_ENDIAN);
    for (int c = 0; c < columns; c++) {
      bytes.putFloat(values.lowUv()[c]).putFloat(values.highUv()[c]);
    }
    context.contentType("application/octet-stream");
    context.result(bytes.array());
  }

  /**
   * Samples as 16-bit numbers, the largest at half of full scale.
   *
   * @param siteEndS where the site ends
   */
  public void sound(Context context, double siteEndS) {
    double startS = parameter(context, "startS");
    ConditionedSignal signal = trace.signal();
    double endS = Math.min(siteEndS, startS + LONGEST_SOUND_S);
    for (Segment segment : signal.segments()) {
      long from =
          segment.firstSample()
              + Math.max(0, (long) signal.timeBase().positionSamples(startS - segment.startS()));
      long to =
          Math.min(
              segment.endSample(),
              segment.firstSample()
                  + (long) signal.timeBase().positionSamples(endS - segment.startS()));
      if (to > from) {
        double[] values = new double[(int) (to - from)];
        signal.read(from, values, 0, values.length);
        double largest = 1e-9;
        for (double value : values) {
          largest = Math.max(largest, Math.abs(value));
        }
        ByteBuffer bytes = ByteBuffer.allocate(2 * values.length).order(ByteOrder.LITTLE_ENDIAN);
        for (double value : values) {
          bytes.putShort((short) Math.round(16_000 * value / largest));
        }
        context.header("Lonefibre-Rate-Hz", Double.toString(signal.timeBase().samplingRateHz()));
        context.contentType("application/octet-stream");
        context.result(bytes.array());
        return;
      }
    }
    throw new Refusal(400, "There is no signal at this time.");
  }
}
