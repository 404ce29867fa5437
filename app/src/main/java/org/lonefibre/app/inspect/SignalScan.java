package org.lonefibre.app.inspect;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.report.figure.RecordingFigure;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/**
 * Goes once over the samples of a channel: extremes, samples at the rails, and a strip for the
 * picture. Keeps one block, however long the channel. Thread rule: one thread.
 */
final class SignalScan {

  private static final int BLOCK = 1 << 16;
  private static final int COLUMNS = RecordingFigure.COLUMNS;

  private final Channel channel;
  private final double[] least = new double[COLUMNS];
  private final double[] greatest = new double[COLUMNS];
  private double lowest = Double.POSITIVE_INFINITY;
  private double highest = Double.NEGATIVE_INFINITY;
  private long atRails;

  /**
   * @param durationS time that the strip spans
   */
  SignalScan(Recording recording, Channel channel, double durationS) throws IOException {
    this.channel = channel;
    Arrays.fill(least, Double.NaN);
    Arrays.fill(greatest, Double.NaN);
    double[] block = new double[BLOCK];
    for (Segment segment : channel.segments()) {
      for (long at = segment.firstSample(); at < segment.endSample(); at += BLOCK) {
        int length = (int) Math.min(BLOCK, segment.endSample() - at);
        recording.read(channel, at, block, 0, length);
        visit(block, length, at - segment.firstSample(), segment.startS(), durationS);
      }
    }
  }

  private void visit(double[] block, int length, long within, double startS, double durationS) {
    double low = channel.lowRailUv() == null ? Double.NEGATIVE_INFINITY : channel.lowRailUv();
    double high = channel.highRailUv() == null ? Double.POSITIVE_INFINITY : channel.highRailUv();
    double step = channel.resolutionUv() == null ? 0 : channel.resolutionUv();
    double nearLow = low + 0.5 * step;
    double nearHigh = high - 0.5 * step;
    for (int k = 0; k < length; k++) {
      double sample = block[k];
      if (!Double.isFinite(sample)) {
        continue;
      }
      lowest = Math.min(lowest, sample);
      highest = Math.max(highest, sample);
      if (sample <= nearLow || sample >= nearHigh) {
        atRails++;
      }
      double timeS = startS + channel.timeBase().timeS((double) (within + k));
      int column = (int) Math.max(0, Math.min(COLUMNS - 1.0, COLUMNS * timeS / durationS));
      if (!(least[column] <= sample)) {
        least[column] = sample;
      }
      if (!(greatest[column] >= sample)) {
        greatest[column] = sample;
      }
    }
  }

  Inspection.Amplitude amplitude() {
    boolean railed = channel.lowRailUv() != null && channel.highRailUv() != null;
    return new Inspection.Amplitude(
        unit(),
        finite(channel.resolutionUv()),
        finite(channel.lowRailUv()),
        finite(channel.highRailUv()),
        finite(lowest),
        finite(highest),
        railed ? atRails : null);
  }

  /** The strip of the picture. */
  RecordingFigure.Strip strip(String label) {
    return new RecordingFigure.Strip(label, unit(), list(least), list(greatest));
  }

  private String unit() {
    return channel.calibration() == Calibration.MICROVOLT ? "uV" : channel.unit();
  }

  private static @Nullable Double finite(@Nullable Double value) {
    return value == null || !Double.isFinite(value) ? null : value;
  }

  private static List<Double> list(double[] values) {
    List<Double> list = new ArrayList<>(values.length);
    for (double value : values) {
      list.add(value);
    }
    return list;
  }
}
