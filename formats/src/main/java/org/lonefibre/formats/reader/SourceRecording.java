package org.lonefibre.formats.reader;

import java.io.Closeable;
import java.io.IOException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * A recording of sources that share one rate, for formats that hold arrays of numbers.
 *
 * <ul>
 *   <li>Numbers that are not finite are missing samples: a gap, and a finding.
 *   <li>The gain that a person tells goes before the unit of the file.
 *   <li>Thread rule: reading from several threads is safe if the sources are.
 * </ul>
 */
public final class SourceRecording extends CheckedRecording {

  private static final int MOST_STRETCHES = 100;

  /**
   * One channel as its file describes it. A sample is {@code scale} times the number plus {@code
   * base}, in {@code unit}.
   *
   * @param label label as written
   * @param unit unit as written, empty if none
   * @param source its numbers
   * @param scale unit of the samples in one of the numbers
   * @param base sample that the number 0 stands for
   * @param whole lowest and highest whole number the file can store; null for real numbers
   */
  public record Input(
      String label,
      String unit,
      SampleSource source,
      double scale,
      double base,
      @Nullable WholeRange whole) {}

  /**
   * Range of whole numbers.
   *
   * @param low lowest number that can be stored
   * @param high highest
   */
  public record WholeRange(double low, double high) {}

  private record Scaled(TimedRuns runs, double gain, double base) {}

  private final String file;
  private final String format;
  private final @Nullable LocalDateTime start;
  private final Closeable resource;
  private final List<Channel> channels = new ArrayList<>();
  private final List<Scaled> scaled = new ArrayList<>();
  private final List<Annotation> annotations;
  private final List<Finding> findings = new ArrayList<>();

  /**
   * @param file name of the file, for messages
   * @param format name of the format
   * @param timeBase rate of all channels
   * @param timing continuous stretches of the sources by their times
   * @param annotations annotations in order of time
   * @param start local date and time of the start; null if the file tells none
   * @param resource closed with the recording
   * @throws RecordingFormatException if no channel has a sample
   */
  public SourceRecording(
      String file,
      String format,
      TimeBase timeBase,
      List<Segment> timing,
      List<Input> inputs,
      List<Annotation> annotations,
      ReadOptions options,
      @Nullable LocalDateTime start,
      Closeable resource)
      throws IOException {
    this.file = file;
    this.format = format;
    this.start = start;
    this.resource = resource;
    this.annotations = List.copyOf(annotations);
    for (Input input : inputs) {
      add(input, timeBase, timing, options.gainUvPerUnit());
    }
    if (channels.stream().allMatch(channel -> channel.sampleCount() == 0)) {
      throw new RecordingFormatException(
          file, "samples", "numbers", "none that are finite", "check which variable is meant");
    }
    findings.addAll(ChannelFindings.list(channels));
  }

  private void add(Input input, TimeBase timeBase, List<Segment> timing, @Nullable Double told)
      throws IOException {
    TimedRuns runs = new TimedRuns(file, input.source(), timeBase, timing);
    OptionalDouble unit = AmplitudeUnit.microvolts(input.unit());
    double factor = told != null ? told : unit.orElse(1);
    double gain = input.scale() * factor;
    double base = input.base() * factor;
    if (!SampleRange.holds(gain) || gain == 0 || !SampleRange.holds(base)) {
      throw new RecordingFormatException(
          file,
          "conversion of " + (scaled.size() + 1),
          "a factor other than 0, and a base, up to " + SampleRange.LARGEST,
          gain + " and " + base,
          "export the recording again");
    }
    WholeRange whole = input.whole();
    double low = whole == null ? 0 : gain * whole.low() + base;
    double high = whole == null ? 0 : gain * whole.high() + base;
    int number = scaled.size() + 1;
    scaled.add(new Scaled(runs, gain, base));
    Channel channel =
        new Channel(
            number,
            input.label(),
            input.unit(),
            told != null || unit.isPresent() ? Calibration.MICROVOLT : Calibration.NONE,
            timeBase,
            runs.count(),
            runs.segments(),
            whole == null ? null : Math.min(low, high),
            whole == null ? null : Math.max(low, high),
            whole == null ? null : Math.abs(gain),
            "");
    channels.add(channel);
    missing(channel, timing);
  }

  private void missing(Channel channel, List<Segment> timing) {
    long there = timing.stream().mapToLong(Segment::sampleCount).sum();
    long absent = there - channel.sampleCount();
    if (absent > 0) {
      List<Evidence.Stretch> gaps = new ArrayList<>();
      double endS = 0;
      for (Segment segment : channel.segments()) {
        if (segment.startS() > endS && gaps.size() < MOST_STRETCHES) {
          gaps.add(new Evidence.Stretch(endS, segment.startS()));
        }
        endS = segment.startS() + channel.timeBase().timeS((double) segment.sampleCount());
      }
      findings.add(
          Finding.caution(
              FindingCode.MISSING_SAMPLES,
              absent
                  + " samples of channel "
                  + channel.number()
                  + " are not numbers, or were never written; they are left out, and no interval"
                  + " crosses them.",
              Evidence.ofStretches(gaps)));
    }
  }

  @Override
  public String format() {
    return format;
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.ofNullable(start);
  }

  @Override
  public List<Channel> channels() {
    return Collections.unmodifiableList(channels);
  }

  @Override
  public List<Annotation> annotations() {
    return annotations;
  }

  @Override
  public List<Finding> findings() {
    return List.copyOf(findings);
  }

  @Override
  protected String file() {
    return file;
  }

  @Override
  protected void copy(Channel own, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    Scaled scale = scaled.get(own.number() - 1);
    scale.runs().read(firstSample, destination, offset, length);
    for (int k = offset; k < offset + length; k++) {
      destination[k] = scale.gain() * destination[k] + scale.base();
    }
  }

  @Override
  protected void release() throws IOException {
    resource.close();
  }
}
