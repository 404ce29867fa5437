package org.lonefibre.formats.text;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.lonefibre.formats.reader.CheckedRecording;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;

/** Text once parsed; its numbers are kept. Thread rule: reading from several threads is safe. */
final class TextRecording extends CheckedRecording {

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
  protected String file() {
    return file;
  }

  @Override
  protected void copy(Channel own, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    Samples one = samples.get(channels.indexOf(own));
    one.column().copy((int) firstSample, one.factor(), destination, offset, length);
  }

  @Override
  protected void release() throws IOException {
    // Nothing is open: all numbers were read.
  }
}
