package org.lonefibre.formats.text;

import java.io.IOException;
import java.nio.channels.ClosedChannelException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.lonefibre.formats.reader.SampleRange;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;

/** Text once parsed; its numbers are kept. Thread rule: reading from several threads is safe. */
final class TextRecording implements Recording {

  /**
   * Samples of one channel.
   *
   * @param factor from the number as written to the unit of the samples
   */
  record Samples(NumberColumn column, double factor) {}

  private final String file;
  private final List<Channel> channels;
  private final List<Samples> samples;
  private final List<Annotation> annotations;
  private final List<Finding> findings;
  private volatile boolean closed;

  TextRecording(
      String file,
      List<Channel> channels,
      List<Samples> samples,
      List<Annotation> annotations,
      List<Finding> findings) {
    this.file = file;
    this.channels = List.copyOf(channels);
    this.samples = List.copyOf(samples);
    this.annotations = List.copyOf(annotations);
    this.findings = List.copyOf(findings);
  }

  @Override
  public String format() {
    return "text";
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
    return annotations;
  }

  @Override
  public List<Finding> findings() {
    return findings;
  }

  @Override
  public void read(Channel channel, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    int index = channel.number() - 1;
    if (index >= samples.size()) {
      throw new IllegalArgumentException("no channel " + channel.number() + " in " + file);
    }
    SampleRange.check(channels.get(index), firstSample, offset, length, destination.length);
    if (closed) {
      throw new ClosedChannelException();
    }
    Samples own = samples.get(index);
    own.column().copy((int) firstSample, own.factor(), destination, offset, length);
  }

  @Override
  public void close() {
    closed = true;
  }
}
