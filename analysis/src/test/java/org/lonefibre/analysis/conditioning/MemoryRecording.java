package org.lonefibre.analysis.conditioning;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** A recording of one channel that lies in memory. */
final class MemoryRecording implements Recording {

  private final Channel channel;
  private final double[] samples;

  MemoryRecording(Channel channel, double[] samples) {
    this.channel = channel;
    this.samples = samples;
  }

  /** Calibrated, without rails, one segment. */
  static MemoryRecording of(double[] samples, double samplingRateHz) {
    return of(samples, samplingRateHz, Calibration.MICROVOLT, null, "");
  }

  /** Samples rounded to 16-bit steps between the rails, and kept between them. */
  static MemoryRecording digitised(double[] samples, double samplingRateHz, double railUv) {
    double step = 2 * railUv / 65_536;
    double[] stored = new double[samples.length];
    for (int i = 0; i < samples.length; i++) {
      double steps = Math.rint(samples[i] / step);
      stored[i] = step * Math.max(-32_768, Math.min(32_767, steps));
    }
    return of(stored, samplingRateHz, Calibration.MICROVOLT, railUv, "");
  }

  static MemoryRecording of(
      double[] samples,
      double samplingRateHz,
      Calibration calibration,
      @Nullable Double railUv,
      String prefilter) {
    Double step = railUv == null ? null : Double.valueOf(2 * railUv / 65_536);
    return new MemoryRecording(
        new Channel(
            1,
            "EMG",
            calibration == Calibration.MICROVOLT ? "uV" : "",
            calibration,
            TimeBase.ofHz(samplingRateHz),
            samples.length,
            List.of(new Segment(0, samples.length, 0)),
            railUv == null || step == null ? null : Double.valueOf(-32_768 * step),
            railUv == null || step == null ? null : Double.valueOf(32_767 * step),
            step,
            prefilter),
        samples);
  }

  Channel channel() {
    return channel;
  }

  @Override
  public String format() {
    return "memory";
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.empty();
  }

  @Override
  public List<Channel> channels() {
    return List.of(channel);
  }

  @Override
  public List<Annotation> annotations() {
    return List.of();
  }

  @Override
  public List<Finding> findings() {
    return List.of();
  }

  @Override
  public void read(Channel wanted, long firstSample, double[] destination, int offset, int length) {
    if (firstSample < 0 || firstSample + length > samples.length) {
      throw new IllegalArgumentException("outside the channel");
    }
    System.arraycopy(samples, (int) firstSample, destination, offset, length);
  }

  @Override
  public void close() {}
}
