package org.lonefibre.formats.edf;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Reads the time-stamped annotation lists (Kemp and Olivan 2003) of all annotation signals, record
 * by record, in linear time; the first list of the first annotation signal also says when its
 * record starts.
 */
final class EdfAnnotations {

  private static final byte TEXT_END = 20;
  private static final byte DURATION_START = 21;

  /** Six decimals of a second are one microsecond. */
  private static final int MICROSECOND_DIGITS = 6;

  /** More than anyone can read, and more than a small memory holds; engineering choice. */
  static final int MOST_ANNOTATIONS = 1_000_000;

  private record Found(BigDecimal onset, @Nullable BigDecimal duration, String text) {}

  private final EdfHeader header;
  private final List<Found> found = new ArrayList<>();
  private boolean isLatin;
  private int finestDigits;
  private int unreadable;
  private String firstUnreadable = "";
  private long leftOut;

  EdfAnnotations(EdfHeader header) {
    this.header = header;
  }

  /** Reads all records and tells the clock when each starts. */
  void read(EdfSamples samples, long records, EdfClock clock) throws IOException {
    List<EdfHeader.Signal> signals =
        header.signals.stream()
            .filter(signal -> signal.isAnnotation() && signal.samplesPerRecord() > 0)
            .toList();
    EdfWindow window = new EdfWindow(header, samples, records);
    for (long record = 0; record < records; record++) {
      for (int s = 0; s < signals.size(); s++) {
        long place = samples.place(record, signals.get(s), 0);
        BigDecimal first = lists(window.bytes(record, signals.get(s)), place);
        if (s == 0) {
          clock.accept(record, first, place);
        }
      }
    }
  }

  /** Whether the bytes begin as the annotations of a record must: with its time. */
  static boolean startsWithTime(byte[] bytes) {
    int end = 0;
    while (end < bytes.length && bytes[end] != TEXT_END) {
      end++;
    }
    return end > 1
        && end < bytes.length
        && EdfNumber.find(new String(bytes, 0, end, StandardCharsets.US_ASCII)) != null;
  }

  /**
   * Reads the lists of one signal in one record; gives the onset of the first if that is the time
   * of the record, that is if its first text is empty (Kemp and Olivan 2003).
   */
  private @Nullable BigDecimal lists(byte[] bytes, long place) {
    BigDecimal first = null;
    boolean isFirst = true;
    int at = 0;
    while (at < bytes.length) {
      if (bytes[at] == 0) {
        at++;
        continue;
      }
      int end = at;
      while (end < bytes.length && bytes[end] != 0) {
        end++;
      }
      BigDecimal onset = list(bytes, at, end, place);
      if (isFirst) {
        first = isTime(bytes, at, end) ? onset : null;
        isFirst = false;
      }
      at = end;
    }
    return first;
  }

  private static boolean isTime(byte[] bytes, int from, int end) {
    int mark = from;
    while (mark < end && bytes[mark] != TEXT_END) {
      mark++;
    }
    return mark + 1 >= end || bytes[mark + 1] == TEXT_END;
  }

  private @Nullable BigDecimal list(byte[] bytes, int from, int end, long place) {
    try {
      int stamp = from;
      while (stamp < end && bytes[stamp] != TEXT_END && bytes[stamp] != DURATION_START) {
        stamp++;
      }
      BigDecimal onset = number(bytes, from, stamp);
      BigDecimal duration = null;
      int text = stamp;
      if (stamp < end && bytes[stamp] == DURATION_START) {
        text = stamp + 1;
        while (text < end && bytes[text] != TEXT_END) {
          text++;
        }
        duration = text > stamp + 1 ? number(bytes, stamp + 1, text) : null;
      }
      if (text >= end) {
        throw new NumberFormatException("no end of the time stamp");
      }
      texts(bytes, text + 1, end, onset, duration);
      return onset;
    } catch (NumberFormatException e) {
      if (unreadable++ == 0) {
        firstUnreadable = "bytes " + (place + from) + " to " + (place + end - 1);
      }
      return null;
    }
  }

  private void texts(
      byte[] bytes, int from, int end, BigDecimal onset, @Nullable BigDecimal duration) {
    int start = from;
    for (int k = from; k <= end; k++) {
      if (k == end || bytes[k] == TEXT_END) {
        if (k > start) {
          finestDigits = Math.max(finestDigits, onset.scale());
          if (found.size() < MOST_ANNOTATIONS) {
            found.add(new Found(onset, duration, decode(bytes, start, k - start)));
          } else {
            leftOut++;
          }
        }
        start = k + 1;
      }
    }
  }

  private String decode(byte[] bytes, int from, int length) {
    try {
      return StandardCharsets.UTF_8
          .newDecoder()
          .decode(ByteBuffer.wrap(bytes, from, length))
          .toString();
    } catch (CharacterCodingException e) {
      isLatin = true;
      return new String(bytes, from, length, StandardCharsets.ISO_8859_1);
    }
  }

  private static BigDecimal number(byte[] bytes, int from, int end) {
    return EdfNumber.parse(new String(bytes, from, end - from, StandardCharsets.US_ASCII).strip());
  }

  /**
   * The annotations in order of time.
   *
   * @param origin time of the first record as written; it is the start of the recording
   */
  List<Annotation> list(BigDecimal origin) {
    return found.stream()
        .sorted(Comparator.comparing(Found::onset))
        .map(
            f ->
                new Annotation(
                    f.onset().subtract(origin).doubleValue(),
                    f.duration() == null ? null : f.duration().doubleValue(),
                    f.text()))
        .toList();
  }

  /** What was noticed. */
  List<Finding> findings() {
    List<Finding> findings = new ArrayList<>();
    if (unreadable > 0) {
      findings.add(
          Finding.caution(
              FindingCode.ANNOTATION_UNREADABLE,
              unreadable
                  + (unreadable == 1 ? " annotation" : " annotations")
                  + " could not be read, the first at "
                  + firstUnreadable
                  + "; the signals are not affected.",
              Evidence.NONE));
    }
    if (leftOut > 0) {
      findings.add(
          Finding.caution(
              FindingCode.ANNOTATION_UNREADABLE,
              "Only the first "
                  + MOST_ANNOTATIONS
                  + " annotations are kept, "
                  + leftOut
                  + " are left out.",
              Evidence.NONE));
    }
    if (isLatin) {
      findings.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "An annotation is not valid UTF-8; it was read as Latin-1.",
              Evidence.NONE));
    }
    if (!found.isEmpty() && finestDigits < MICROSECOND_DIGITS) {
      findings.add(
          Finding.note(
              FindingCode.ANNOTATION_RESOLUTION,
              "Times of annotations are written in steps coarser than 1 us; they are never used"
                  + " for jitter.",
              Evidence.NONE));
    }
    return findings;
  }
}
