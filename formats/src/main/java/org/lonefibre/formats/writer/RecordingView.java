package org.lonefibre.formats.writer;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.HeaderField;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;

/** The samples of another recording under other descriptions. Thread rule: as the other's. */
final class RecordingView implements Recording, StoredForm {

  private final Recording inner;
  private final @Nullable LocalDateTime start;
  private final List<Channel> channels;
  private final List<Annotation> annotations;

  /**
   * @param channels numbered as those of the recording within
   */
  RecordingView(
      Recording inner,
      @Nullable LocalDateTime start,
      List<Channel> channels,
      List<Annotation> annotations) {
    this.inner = inner;
    this.start = start;
    this.channels = List.copyOf(channels);
    this.annotations = List.copyOf(annotations);
  }

  @Override
  public String format() {
    return inner.format();
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.ofNullable(start);
  }

  @Override
  public List<Channel> channels() {
    return channels;
  }

  @Override
  public List<Annotation> annotations() {
    return annotations;
  }

  @Override
  public List<Finding> findings() {
    return inner.findings();
  }

  @Override
  public void read(Channel channel, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    inner.read(channel, firstSample, destination, offset, length);
  }

  @Override
  public int storedBits() {
    return inner instanceof StoredForm stored ? stored.storedBits() : 0;
  }

  @Override
  public Optional<DigitalRange> findDigitalRange(Channel channel) {
    return inner instanceof StoredForm stored ? stored.findDigitalRange(channel) : Optional.empty();
  }

  @Override
  public List<HeaderField> listHeaderFields() throws IOException {
    return inner instanceof StoredForm stored ? stored.listHeaderFields() : List.of();
  }

  @Override
  public void close() throws IOException {
    inner.close();
  }
}
