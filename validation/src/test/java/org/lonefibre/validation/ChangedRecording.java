package org.lonefibre.validation;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/** A recording seen through another amplifier: scaled, turned over, begun later, other channels. */
final class ChangedRecording implements Recording {

  private final Recording recording;
  private final Channel source;
  private final double factor;
  private final long skipped;
  private final List<Channel> channels;

  /**
   * @param factor what every sample is multiplied with
   * @param skipped samples left out at the start
   * @param before quiet channels put before the needle's
   */
  ChangedRecording(Recording recording, double factor, long skipped, int before) {
    this.recording = recording;
    this.source = recording.channels().get(0);
    this.factor = factor;
    this.skipped = skipped;
    List<Channel> list = new java.util.ArrayList<>();
    for (int i = 0; i <= before; i++) {
      list.add(channel(i + 1, i < before ? "quiet " + i : "needle"));
    }
    this.channels = List.copyOf(list);
  }

  private Channel channel(int number, String label) {
    long count = source.sampleCount() - skipped;
    Double low = source.lowRailUv();
    Double high = source.highRailUv();
    return new Channel(
        number,
        label,
        source.unit(),
        source.calibration(),
        source.timeBase(),
        count,
        List.of(new Segment(0, count, 0)),
        factor < 0 ? times(high) : times(low),
        factor < 0 ? times(low) : times(high),
        source.resolutionUv() == null ? null : Math.abs(factor) * source.resolutionUv(),
        source.prefilter());
  }

  private @Nullable Double times(@Nullable Double value) {
    return value == null ? null : Double.valueOf(factor * value);
  }

  /** The needle's channel. */
  Channel needle() {
    return channels.get(channels.size() - 1);
  }

  @Override
  public String format() {
    return recording.format();
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.empty();
  }

  @Override
  public List<Channel> channels() {
    return channels;
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
  public void read(Channel channel, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    recording.read(source, skipped + firstSample, destination, offset, length);
    double scale = channel.equals(needle()) ? factor : 0;
    for (int i = offset; i < offset + length; i++) {
      destination[i] *= scale;
    }
  }

  @Override
  public void close() throws IOException {
    recording.close();
  }
}
