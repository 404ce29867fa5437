package org.lonefibre.formats.edf;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/** The header of an EDF or BDF file, as written. */
final class EdfHeader {

  static final int FIXED_BYTES = 256;
  static final int SIGNAL_BYTES = 256;
  private static final int MOST_SIGNALS = 4096;

  /**
   * Stands for a date that is not to be known, beside {@code Startdate X} (Kemp and Olivan 2003).
   */
  private static final String UNKNOWN_DATE = "01.01.85";

  /** One signal of the header. */
  record Signal(
      String label,
      String unit,
      String physicalMinimum,
      String physicalMaximum,
      String digitalMinimum,
      String digitalMaximum,
      String prefilter,
      int samplesPerRecord,
      long offsetInRecord,
      int index) {

    boolean isAnnotation() {
      return label.equals("EDF Annotations") || label.equals("BDF Annotations");
    }
  }

  final String file;
  final boolean is24Bit;
  final String reserved;
  final @Nullable LocalDateTime start;
  final boolean isStartInvalid;
  final boolean isTextValid;
  final int headerBytes;
  final long declaredRecords;
  final BigDecimal recordDurationS;
  final List<Signal> signals;
  final long recordBytes;

  private EdfHeader(
      String file,
      boolean is24Bit,
      String reserved,
      @Nullable LocalDateTime start,
      boolean isStartInvalid,
      boolean isTextValid,
      int headerBytes,
      long declaredRecords,
      BigDecimal recordDurationS,
      List<Signal> signals,
      long recordBytes) {
    this.file = file;
    this.is24Bit = is24Bit;
    this.reserved = reserved;
    this.start = start;
    this.isStartInvalid = isStartInvalid;
    this.isTextValid = isTextValid;
    this.headerBytes = headerBytes;
    this.declaredRecords = declaredRecords;
    this.recordDurationS = recordDurationS;
    this.signals = List.copyOf(signals);
    this.recordBytes = recordBytes;
  }

  /** Whether time may jump between records. */
  boolean isInterrupted() {
    return reserved.startsWith("EDF+D") || reserved.startsWith("BDF+D");
  }

  /** Name of the format. */
  String format() {
    String kind = is24Bit ? "BDF" : "EDF";
    boolean plus = reserved.startsWith(kind + "+C") || reserved.startsWith(kind + "+D");
    return plus ? reserved.substring(0, 5) : kind;
  }

  int sampleBytes() {
    return is24Bit ? 3 : 2;
  }

  static EdfHeader read(String file, FileChannel channel) throws IOException {
    byte[] fixed = bytes(file, channel, 0, FIXED_BYTES, "the fixed header");
    boolean is24Bit = fixed[0] == (byte) 0xFF;
    boolean valid = isAscii(fixed, is24Bit ? 8 : 0);
    int count = whole(file, fixed, 252, 4, "number of signals");
    if (count < 1 || count > MOST_SIGNALS) {
      throw fault(file, 252, "number of signals", "1 to " + MOST_SIGNALS, Integer.toString(count));
    }
    int headerBytes = whole(file, fixed, 184, 8, "number of bytes in the header");
    int expected = FIXED_BYTES + count * SIGNAL_BYTES;
    if (headerBytes != expected) {
      throw fault(
          file,
          184,
          "number of bytes in the header",
          expected + " (256 for the file and 256 for each of " + count + " signals)",
          Integer.toString(headerBytes));
    }
    long records = whole(file, fixed, 236, 8, "number of records");
    BigDecimal duration = decimal(file, fixed, 244, 8, "duration of a record");
    if (duration.signum() < 0) {
      throw fault(file, 244, "duration of a record", "0 or more", duration.toPlainString());
    }
    byte[] rest =
        bytes(file, channel, FIXED_BYTES, count * SIGNAL_BYTES, "the headers of the signals");
    valid &= isAscii(rest, 0);
    List<Signal> signals = signals(file, rest, count, is24Bit ? 3 : 2);
    long recordBytes =
        signals.stream().mapToLong(s -> (long) s.samplesPerRecord()).sum() * (is24Bit ? 3 : 2);
    if (recordBytes == 0) {
      throw fault(
          file, FIXED_BYTES + 216L * count, "number of samples", "at least one sample", "0");
    }
    LocalDateTime start = start(fixed);
    boolean isUnknown =
        text(fixed, 168, 8).equals(UNKNOWN_DATE) && text(fixed, 88, 80).startsWith("Startdate X");
    return new EdfHeader(
        file,
        is24Bit,
        text(fixed, 192, 44),
        isUnknown ? null : start,
        start == null,
        valid,
        headerBytes,
        records,
        duration,
        signals,
        recordBytes);
  }

  private static List<Signal> signals(String file, byte[] rest, int count, int sampleBytes)
      throws IOException {
    List<Signal> signals = new ArrayList<>();
    long offset = 0;
    for (int i = 0; i < count; i++) {
      int samples =
          wholeAt(
              file,
              rest,
              216 * count + 8 * i,
              8,
              FIXED_BYTES + 216L * count + 8L * i,
              "number of samples of signal " + (i + 1));
      if (samples < 0) {
        throw fault(
            file,
            FIXED_BYTES + 216L * count + 8L * i,
            "number of samples of signal " + (i + 1),
            "0 or more",
            Integer.toString(samples));
      }
      signals.add(
          new Signal(
              text(rest, 16 * i, 16),
              text(rest, 96 * count + 8 * i, 8),
              text(rest, 104 * count + 8 * i, 8),
              text(rest, 112 * count + 8 * i, 8),
              text(rest, 120 * count + 8 * i, 8),
              text(rest, 128 * count + 8 * i, 8),
              text(rest, 136 * count + 80 * i, 80),
              samples,
              offset,
              i));
      offset += (long) samples * sampleBytes;
    }
    return signals;
  }

  private static @Nullable LocalDateTime start(byte[] fixed) {
    String date = text(fixed, 168, 8);
    String time = text(fixed, 176, 8);
    String[] day = date.split("\\.", -1);
    String[] hour = time.split("[.:]", -1);
    if (day.length != 3 || hour.length != 3) {
      return null;
    }
    try {
      int year = Integer.parseInt(day[2].strip());
      return LocalDateTime.of(
          year >= 85 ? 1900 + year : 2000 + year,
          Integer.parseInt(day[1].strip()),
          Integer.parseInt(day[0].strip()),
          Integer.parseInt(hour[0].strip()),
          Integer.parseInt(hour[1].strip()),
          Integer.parseInt(hour[2].strip()));
    } catch (NumberFormatException | DateTimeException e) {
      return null;
    }
  }

  private static byte[] bytes(String file, FileChannel channel, long at, int length, String what)
      throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate(length);
    while (buffer.hasRemaining() && channel.read(buffer, at + buffer.position()) > 0) {
      // keeps reading until the buffer is full or the file ends
    }
    if (buffer.hasRemaining()) {
      throw new RecordingFormatException(
          file,
          "byte " + (at + buffer.position()),
          length + " bytes of " + what,
          "the end of the file",
          "copy the file again from its source");
    }
    return buffer.array();
  }

  /** Text of a field, UTF-8 where it is valid, else Latin-1; surrounding space removed. */
  static String text(byte[] bytes, int at, int length) {
    String utf8 = new String(bytes, at, length, StandardCharsets.UTF_8);
    String chosen =
        utf8.indexOf('\uFFFD') >= 0
            ? new String(bytes, at, length, StandardCharsets.ISO_8859_1)
            : utf8;
    int end = chosen.indexOf('\0');
    return (end >= 0 ? chosen.substring(0, end) : chosen).strip();
  }

  private static int whole(String file, byte[] bytes, int at, int length, String field)
      throws IOException {
    return wholeAt(file, bytes, at, length, at, field);
  }

  private static int wholeAt(
      String file, byte[] bytes, int at, int length, long place, String field) throws IOException {
    String text = text(bytes, at, length);
    try {
      return EdfNumber.parse(text).intValueExact();
    } catch (NumberFormatException | ArithmeticException e) {
      throw fault(file, place, field, "a whole number", text);
    }
  }

  private static BigDecimal decimal(String file, byte[] bytes, int at, int length, String field)
      throws IOException {
    String text = text(bytes, at, length);
    try {
      return EdfNumber.parse(text);
    } catch (NumberFormatException e) {
      throw fault(file, at, field, "a number", text);
    }
  }

  static RecordingFormatException fault(
      String file, long place, String field, String expected, String found) {
    return new RecordingFormatException(
        file,
        "byte " + place + ", " + field,
        expected,
        found.isEmpty() ? "nothing" : "\"" + found + "\"",
        "export the recording again, or mend the header");
  }

  private static boolean isAscii(byte[] bytes, int from) {
    for (int i = from; i < bytes.length; i++) {
      if (bytes[i] < 0) {
        return false;
      }
    }
    return true;
  }
}
