package org.lonefibre.formats.edf;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.channels.FileChannel;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.CheckedRecording;
import org.lonefibre.formats.reader.HeaderField;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** An open EDF or BDF file. Thread rule: reading from several threads is safe. */
final class EdfRecording extends CheckedRecording implements StoredForm {

  private final EdfHeader header;
  private final FileChannel file;
  private final @Nullable LocalDateTime start;
  private final EdfSamples samples;
  private final List<Channel> channels;
  private final Map<Integer, EdfSamples.Scale> scales;
  private final List<Annotation> annotations;
  private final List<Finding> findings;
  private final boolean isGainTold;

  EdfRecording(EdfHeader header, FileChannel file, ReadOptions options) throws IOException {
    this.header = header;
    this.file = file;
    this.isGainTold = options.gainUvPerUnit() != null;
    this.samples = new EdfSamples(header, file);
    EdfRecords records = new EdfRecords(header, samples, file.size());
    if (header.isInterrupted()
        && header.signals.stream().noneMatch(EdfHeader.Signal::isAnnotation)) {
      throw EdfHeader.fault(
          header.file,
          192,
          "kind of the file",
          "an annotation signal with the time of each record, as interrupted recordings have",
          header.format());
    }
    EdfClock clock =
        new EdfClock(
            header,
            header.isInterrupted()
                ? EdfClock.Continuity.INTERRUPTED
                : EdfClock.Continuity.CONTINUOUS);
    EdfAnnotations read = new EdfAnnotations(header);
    read.read(samples, records.used, clock);
    this.start = start(header, clock.origin());
    this.annotations = read.list(clock.origin());
    List<EdfClock.Stretch> stretches = clock.stretches(records.used);
    EdfChannels found = new EdfChannels(header, records.used, stretches, options);
    this.channels = List.copyOf(found.channels);
    this.scales = Map.copyOf(found.scales);
    List<Finding> noticed = new ArrayList<>(records.findings);
    noticed.addAll(headerFindings());
    if (!header.isInterrupted() && stretches.size() > 1) {
      noticed.add(
          Finding.caution(
              FindingCode.GAP,
              "The file says it is continuous, but the times of its records jump "
                  + (stretches.size() - 1)
                  + " times; no interval crosses a jump.",
              Evidence.NONE));
    }
    noticed.addAll(read.findings());
    noticed.addAll(found.findings);
    this.findings = List.copyOf(noticed);
  }

  /** The start with the fraction of a second that the first record tells (Kemp and Olivan 2003). */
  private static @Nullable LocalDateTime start(EdfHeader header, BigDecimal origin) {
    LocalDateTime whole = header.start;
    if (whole == null || origin.signum() <= 0 || origin.compareTo(BigDecimal.ONE) >= 0) {
      return whole;
    }
    return whole.plusNanos(origin.movePointRight(9).longValue());
  }

  private List<Finding> headerFindings() {
    List<Finding> noticed = new ArrayList<>();
    if (!header.isTextValid) {
      noticed.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "The header holds characters outside ASCII.",
              Evidence.NONE));
    }
    if (header.isStartInvalid) {
      noticed.add(
          Finding.note(
              FindingCode.INVALID_DATE,
              "The date or time of the start is not valid; times count from the start.",
              Evidence.NONE));
    }
    return noticed;
  }

  @Override
  public String format() {
    return header.format();
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
    return findings;
  }

  @Override
  protected String file() {
    return header.file;
  }

  @Override
  protected void copy(Channel own, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    EdfSamples.Scale scale = Objects.requireNonNull(scales.get(own.number()));
    samples.read(scale, firstSample, destination, offset, length);
  }

  @Override
  public int storedBits() {
    return 8 * header.sampleBytes();
  }

  @Override
  public Optional<DigitalRange> findDigitalRange(Channel channel) {
    EdfSamples.Scale scale = scales.get(channel.number());
    if (scale == null || isGainTold) {
      return Optional.empty();
    }
    EdfHeader.Signal signal = scale.signal();
    try {
      return Optional.of(
          new DigitalRange(
              signal.physicalMinimum(),
              signal.physicalMaximum(),
              EdfNumber.parse(signal.digitalMinimum()).intValueExact(),
              EdfNumber.parse(signal.digitalMaximum()).intValueExact()));
    } catch (ArithmeticException e) {
      return Optional.empty();
    }
  }

  @Override
  public List<HeaderField> listHeaderFields() throws IOException {
    return EdfFields.list(samples.header(), header.signals.size());
  }

  @Override
  protected void release() throws IOException {
    file.close();
  }
}
