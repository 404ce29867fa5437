package org.lonefibre.formats.wav;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.ChannelFindings;
import org.lonefibre.formats.reader.CheckedRecording;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.SampleRuns;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

/** An open WAV file. Thread rule: reading from several threads is safe. */
final class WavRecording extends CheckedRecording {

  private final WavBytes bytes;
  private final String formatName;
  private final WavData data;
  private final double factor;
  private final List<Channel> channels = new ArrayList<>();
  private final Map<Integer, SampleRuns> runs = new LinkedHashMap<>();
  private final List<Finding> findings = new ArrayList<>();

  WavRecording(WavBytes bytes, String formatName, boolean is64Bit, ReadOptions options)
      throws IOException {
    this.bytes = bytes;
    this.formatName = formatName;
    WavChunks chunks = new WavChunks(bytes, is64Bit);
    findings.addAll(chunks.findings);
    WavFormat format = WavFormat.read(bytes, chunks.format);
    this.data = new WavData(bytes, format, chunks.samples);
    Double told = options.gainUvPerUnit();
    this.factor = told == null ? 1 : told;
    checkRate(format);
    long rest = chunks.samples.size() - data.frames * format.frameBytes();
    if (rest > 0) {
      findings.add(
          Finding.caution(
              FindingCode.TRAILING_BYTES,
              rest + " bytes after the last whole frame are left out.",
              Evidence.NONE));
    }
    TimeBase timeBase = timeBase(format, options, chunks.format.start());
    List<@Nullable SampleRuns> there = data.present(factor);
    for (int number = 1; number <= format.channels(); number++) {
      SampleRuns present = there.get(number - 1);
      if (present == null) {
        findings.add(
            Finding.exclusion(
                FindingCode.CHANNEL_REFUSED,
                "Channel "
                    + number
                    + " is interrupted more than "
                    + SampleRuns.MOST_RUNS
                    + " times; it is left out.",
                Evidence.NONE));
        continue;
      }
      runs.put(number, present);
      channels.add(channel(number, format, timeBase, present, told));
      missing(number, data.frames - present.sampleCount());
    }
    findings.addAll(ChannelFindings.list(channels));
  }

  private void checkRate(WavFormat format) {
    long bytesPerSecond = format.rateHz() * format.frameBytes();
    if (format.statedBytesPerSecond() != (bytesPerSecond & 0xFFFF_FFFFL)) {
      findings.add(
          Finding.caution(
              FindingCode.HEADER_CONTRADICTION,
              "The file declares "
                  + format.rateHz()
                  + " samples a second, which are "
                  + bytesPerSecond
                  + " bytes, but also "
                  + format.statedBytesPerSecond()
                  + " bytes a second; the sampling rate is used.",
              Evidence.NONE));
    }
  }

  /**
   * The rate; the file can hold whole numbers only, so one that is told may differ by a fraction.
   */
  private TimeBase timeBase(WavFormat format, ReadOptions options, long at)
      throws RecordingFormatException {
    Double told = options.samplingRateHz();
    if (told == null) {
      return TimeBase.ofHz(format.rateHz());
    }
    if (Math.abs(told - format.rateHz()) >= 1) {
      throw new RecordingFormatException(
          bytes.file,
          "byte " + (at + 4) + ", sampling rate",
          "the rate that --sampling-rate-hz tells, " + told + " Hz, or its whole number",
          format.rateHz() + " Hz",
          "leave the option out, or correct the file");
    }
    return TimeBase.ofHz(told);
  }

  private Channel channel(
      int number, WavFormat format, TimeBase timeBase, SampleRuns present, @Nullable Double told) {
    boolean isExact = !format.isFloat() && format.bits() <= 24;
    boolean isFull = isExact && format.bits() == 8 * format.sampleBytes();
    double half = Math.scalb(1.0, format.bits() - 1);
    double low = -half * factor;
    double high = (half - 1) * factor;
    return new Channel(
        number,
        "channel " + number,
        "",
        told != null ? Calibration.MICROVOLT : Calibration.NONE,
        timeBase,
        present.sampleCount(),
        present.segments(timeBase),
        isFull ? (Double) Math.min(low, high) : null,
        isFull ? (Double) Math.max(low, high) : null,
        isExact ? (Double) Math.abs(factor) : null,
        "");
  }

  private void missing(int number, long count) {
    if (count > 0) {
      findings.add(
          Finding.caution(
              FindingCode.MISSING_SAMPLES,
              count
                  + (count == 1 ? " sample" : " samples")
                  + " of channel "
                  + number
                  + " are no numbers; they are gaps that no interval crosses.",
              Evidence.NONE));
    }
  }

  @Override
  public String format() {
    return formatName;
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.empty();
  }

  @Override
  public List<Channel> channels() {
    return Collections.unmodifiableList(channels);
  }

  @Override
  public List<Annotation> annotations() {
    return List.of();
  }

  @Override
  public List<Finding> findings() {
    return List.copyOf(findings);
  }

  @Override
  protected String file() {
    return bytes.file;
  }

  @Override
  protected void copy(Channel own, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    Objects.requireNonNull(runs.get(own.number()))
        .forEach(
            firstSample,
            length,
            (at, place, count) ->
                data.read(own.number() - 1, at, factor, destination, offset + place, count));
  }

  @Override
  protected void release() throws IOException {
    bytes.close();
  }
}
