package org.lonefibre.formats.edf;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.FileChannel;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** An open EDF or BDF file. */
final class EdfRecording implements Recording {

  private static final int CHUNK_BYTES = 1 << 20;

  private final EdfHeader header;
  private final FileChannel file;
  private final long records;
  private final List<Channel> channels = new ArrayList<>();
  private final List<Annotation> annotations;
  private final List<Finding> findings = new ArrayList<>();

  /** What turns the numbers of one channel into samples. */
  private record Decoding(EdfHeader.Signal signal, double gain, double offset) {}

  private final Map<Integer, Decoding> decodings = new HashMap<>();

  static EdfRecording open(String name, FileChannel file, ReadOptions options) throws IOException {
    return new EdfRecording(EdfHeader.read(name, file), file, options);
  }

  private EdfRecording(EdfHeader header, FileChannel file, ReadOptions options) throws IOException {
    this.header = header;
    this.file = file;
    this.records = records();
    boolean plus = header.signals.stream().anyMatch(EdfHeader.Signal::isAnnotation);
    EdfAnnotations read =
        plus
            ? EdfAnnotations.read(header, records, this::annotationBytes)
            : EdfAnnotations.read(header, 0, this::annotationBytes);
    this.annotations = List.copyOf(read.annotations);
    findings.addAll(read.findings);
    notes();
    List<long[]> stretches = stretches(read.recordStarts);
    for (EdfHeader.Signal signal : header.signals) {
      if (!signal.isAnnotation()) {
        channel(signal, stretches, read.recordStarts, options);
      }
    }
    labels();
  }

  private long records() throws IOException {
    long there = Math.max(0, file.size() - header.headerBytes);
    long whole = there / header.recordBytes;
    long declared = header.declaredRecords;
    if (declared < -1) {
      throw EdfHeader.fault(
          header.file, 236, "number of records", "-1 or more", Long.toString(declared));
    }
    if (declared != whole) {
      findings.add(
          Finding.caution(
              FindingCode.RECORD_COUNT,
              "The header declares "
                  + declared
                  + " records, the file holds "
                  + whole
                  + " whole ones; "
                  + (declared < 0 || declared > whole ? whole : declared)
                  + " are used.",
              Evidence.NONE));
    }
    long used = declared < 0 ? whole : Math.min(declared, whole);
    long rest = there - used * header.recordBytes;
    if (rest > 0) {
      findings.add(
          Finding.caution(
              FindingCode.TRAILING_BYTES,
              rest + " bytes after the last record used were left out.",
              Evidence.NONE));
    }
    return used;
  }

  private void notes() {
    if (!header.isTextValid) {
      findings.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "The header holds characters outside ASCII.",
              Evidence.NONE));
    }
    if (header.isStartInvalid) {
      findings.add(
          Finding.note(
              FindingCode.INVALID_DATE,
              "The date or time of the start is not valid; times count from the start.",
              Evidence.NONE));
    }
  }

  /** First record and end of each continuous run of records. */
  private List<long[]> stretches(List<@Nullable BigDecimal> starts) {
    List<long[]> stretches = new ArrayList<>();
    boolean interrupted = header.reserved.length() > 4 && header.reserved.charAt(4) == 'D';
    long first = 0;
    if (interrupted) {
      for (int r = 1; r < starts.size(); r++) {
        BigDecimal before = starts.get(r - 1);
        BigDecimal here = starts.get(r);
        boolean follows =
            before == null
                || here == null
                || before
                        .add(header.recordDurationS)
                        .subtract(here)
                        .abs()
                        .compareTo(new BigDecimal("0.000005"))
                    <= 0;
        if (!follows) {
          stretches.add(new long[] {first, r});
          first = r;
        }
      }
    }
    if (records > first) {
      stretches.add(new long[] {first, records});
    }
    return stretches;
  }

  private void channel(
      EdfHeader.Signal signal,
      List<long[]> stretches,
      List<@Nullable BigDecimal> starts,
      ReadOptions options)
      throws IOException {
    int number = signal.index() + 1;
    if (signal.samplesPerRecord() == 0) {
      return;
    }
    if (header.recordDurationS.signum() == 0) {
      throw EdfHeader.fault(
          header.file,
          244,
          "duration of a record",
          "more than 0 s, for signals sampled in time",
          header.recordDurationS.toPlainString());
    }
    Double physicalLow = number(signal.physicalMinimum());
    Double physicalHigh = number(signal.physicalMaximum());
    Double digitalLow = number(signal.digitalMinimum());
    Double digitalHigh = number(signal.digitalMaximum());
    if (physicalLow == null
        || physicalHigh == null
        || digitalLow == null
        || digitalHigh == null
        || physicalLow.equals(physicalHigh)
        || digitalLow >= digitalHigh) {
      findings.add(
          Finding.exclusion(
              FindingCode.CHANNEL_REFUSED,
              "Signal "
                  + number
                  + " cannot be scaled: physical "
                  + signal.physicalMinimum()
                  + " to "
                  + signal.physicalMaximum()
                  + ", digital "
                  + signal.digitalMinimum()
                  + " to "
                  + signal.digitalMaximum()
                  + "; it is left out.",
              Evidence.NONE));
      return;
    }
    if (physicalHigh < physicalLow) {
      findings.add(
          Finding.note(
              FindingCode.INVERTED_RANGE,
              "Signal " + number + " has a negative gain.",
              Evidence.NONE));
    }
    OptionalDouble unit = AmplitudeUnit.microvolts(signal.unit());
    Double told = options.gainUvPerUnit();
    double scale = told != null ? told : unit.orElse(1);
    boolean calibrated = told != null || unit.isPresent();
    double gain = (physicalHigh - physicalLow) / (digitalHigh - digitalLow);
    double offset = physicalLow - gain * digitalLow;
    decodings.put(number, new Decoding(signal, gain * scale, offset * scale));
    long samples = signal.samplesPerRecord();
    List<Segment> segments = new ArrayList<>();
    for (long[] stretch : stretches) {
      BigDecimal start = stretch[0] < starts.size() ? starts.get((int) stretch[0]) : null;
      double startS =
          start != null && stretches.size() > 1
              ? start.doubleValue()
              : header.recordDurationS.multiply(BigDecimal.valueOf(stretch[0])).doubleValue();
      segments.add(new Segment(stretch[0] * samples, (stretch[1] - stretch[0]) * samples, startS));
    }
    double a = (gain * digitalLow + offset) * scale;
    double b = (gain * digitalHigh + offset) * scale;
    channels.add(
        new Channel(
            number,
            signal.label(),
            signal.unit(),
            calibrated ? Calibration.MICROVOLT : Calibration.NONE,
            timeBase(samples),
            records * samples,
            segments,
            Math.min(a, b),
            Math.max(a, b),
            Math.abs(gain * scale),
            signal.prefilter()));
  }

  private TimeBase timeBase(long samples) throws RecordingFormatException {
    BigDecimal duration = header.recordDurationS.stripTrailingZeros();
    BigInteger ten = BigInteger.TEN.pow(Math.max(0, duration.scale()));
    BigInteger seconds = duration.multiply(new BigDecimal(ten)).toBigIntegerExact();
    BigInteger count = BigInteger.valueOf(samples).multiply(ten);
    BigInteger divisor = count.gcd(seconds);
    try {
      return new TimeBase(
          count.divide(divisor).longValueExact(), seconds.divide(divisor).longValueExact());
    } catch (ArithmeticException e) {
      throw EdfHeader.fault(
          header.file,
          244,
          "duration of a record",
          "a duration that gives a usable rate",
          header.recordDurationS.toPlainString());
    }
  }

  private static @Nullable Double number(String text) {
    try {
      double value = Double.parseDouble(text);
      return Double.isFinite(value) ? value : null;
    } catch (NumberFormatException e) {
      return null;
    }
  }

  private void labels() {
    Map<String, Integer> seen = new HashMap<>();
    for (Channel channel : channels) {
      seen.merge(channel.label(), 1, Integer::sum);
    }
    seen.forEach(
        (label, count) -> {
          if (count > 1) {
            findings.add(
                Finding.note(
                    FindingCode.DUPLICATE_LABEL,
                    count + " signals have the same label; name one by its number.",
                    Evidence.NONE));
          }
        });
  }

  private byte[] annotationBytes(long record, EdfHeader.Signal signal) throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate(signal.samplesPerRecord() * header.sampleBytes());
    fill(buffer, header.headerBytes + record * header.recordBytes + signal.offsetInRecord());
    return buffer.array();
  }

  private void fill(ByteBuffer buffer, long at) throws IOException {
    long position = at;
    while (buffer.hasRemaining()) {
      int read = file.read(buffer, position);
      if (read < 0) {
        throw new RecordingFormatException(
            header.file,
            "byte " + position,
            buffer.remaining() + " more bytes",
            "the end of the file",
            "the file has shrunk while it was read; copy it again");
      }
      position += read;
    }
  }

  @Override
  public String format() {
    String kind = header.is24Bit ? "BDF" : "EDF";
    if (header.reserved.length() > 4 && header.reserved.startsWith(kind + "+")) {
      return header.reserved.substring(0, 5);
    }
    return kind;
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.ofNullable(header.start);
  }

  @Override
  public List<Channel> channels() {
    return List.copyOf(channels);
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
  public void read(Channel channel, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    Decoding decoding = decodings.get(channel.number());
    if (decoding == null) {
      throw new IllegalArgumentException("no channel " + channel.number() + " in " + header.file);
    }
    if (!file.isOpen()) {
      throw new ClosedChannelException();
    }
    if (firstSample < 0 || length < 0 || firstSample + length > channel.sampleCount()) {
      throw new IllegalArgumentException(
          "samples "
              + firstSample
              + " to "
              + (firstSample + length)
              + " lie outside channel "
              + channel.number()
              + " of "
              + channel.sampleCount()
              + " samples");
    }
    int samples = decoding.signal().samplesPerRecord();
    int bytes = header.sampleBytes();
    boolean dense = (long) samples * bytes * 8 >= header.recordBytes;
    long at = firstSample;
    int done = 0;
    ByteBuffer buffer =
        ByteBuffer.allocate(
            (int)
                Math.max(
                    (long) samples * bytes, dense ? Math.max(CHUNK_BYTES, header.recordBytes) : 0));
    while (done < length) {
      long record = at / samples;
      int within = (int) (at % samples);
      long start =
          header.headerBytes
              + record * header.recordBytes
              + decoding.signal().offsetInRecord()
              + (long) within * bytes;
      if (dense) {
        long span = Math.min(length - done, remainingIn(buffer.capacity(), samples, within));
        long lastRecord = (at + span - 1) / samples;
        long end =
            header.headerBytes
                + lastRecord * header.recordBytes
                + decoding.signal().offsetInRecord()
                + ((at + span - 1) % samples + 1) * bytes;
        buffer.clear().limit((int) (end - start));
        fill(buffer, start);
        decode(buffer.array(), start, at, (int) span, decoding, destination, offset + done);
        at += span;
        done += (int) span;
      } else {
        int count = Math.min(length - done, samples - within);
        buffer.clear().limit(count * bytes);
        fill(buffer, start);
        run(buffer.array(), 0, count, decoding, destination, offset + done);
        at += count;
        done += count;
      }
    }
  }

  /** How many samples can be read in one go from a place within a record. */
  private long remainingIn(int capacity, int samples, int within) {
    long whole = Math.max(1, capacity / header.recordBytes);
    return whole * samples - within;
  }

  private void decode(
      byte[] bytes,
      long start,
      long firstSample,
      int length,
      Decoding decoding,
      double[] destination,
      int offset) {
    int samples = decoding.signal().samplesPerRecord();
    int done = 0;
    long at = firstSample;
    while (done < length) {
      int within = (int) (at % samples);
      int count = Math.min(length - done, samples - within);
      long place =
          header.headerBytes
              + at / samples * header.recordBytes
              + decoding.signal().offsetInRecord()
              + (long) within * header.sampleBytes();
      run(bytes, (int) (place - start), count, decoding, destination, offset + done);
      done += count;
      at += count;
    }
  }

  private void run(
      byte[] bytes, int from, int count, Decoding decoding, double[] destination, int offset) {
    double gain = decoding.gain();
    double base = decoding.offset();
    if (header.is24Bit) {
      for (int k = 0, b = from; k < count; k++, b += 3) {
        int value = (bytes[b] & 0xFF) | (bytes[b + 1] & 0xFF) << 8 | bytes[b + 2] << 16;
        destination[offset + k] = gain * value + base;
      }
    } else {
      for (int k = 0, b = from; k < count; k++, b += 2) {
        int value = (bytes[b] & 0xFF) | bytes[b + 1] << 8;
        destination[offset + k] = gain * value + base;
      }
    }
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
