package org.lonefibre.formats.edf;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** Times of records and annotations of an EDF+ or BDF+ file, in decimal arithmetic. */
final class EdfAnnotations {

  private static final byte TEXT_END = 20;
  private static final byte DURATION_START = 21;

  final List<Annotation> annotations = new ArrayList<>();

  /** Start of each record, the offset of the first taken off; null where it cannot be read. */
  final List<@Nullable BigDecimal> recordStarts = new ArrayList<>();

  final List<Finding> findings = new ArrayList<>();
  private BigDecimal offset = BigDecimal.ZERO;
  private boolean hasOffset;
  private boolean sawLatin;
  private int coarsest = Integer.MAX_VALUE;
  private int unreadable;
  private String firstUnreadable = "";

  /** Gives the bytes of one annotation signal in one record. */
  @FunctionalInterface
  interface Source {
    byte[] bytes(long record, EdfHeader.Signal signal) throws IOException;
  }

  static EdfAnnotations read(EdfHeader header, long records, Source source) throws IOException {
    EdfAnnotations read = new EdfAnnotations();
    List<EdfHeader.Signal> signals =
        header.signals.stream().filter(EdfHeader.Signal::isAnnotation).toList();
    for (long record = 0; record < records; record++) {
      BigDecimal start = null;
      for (int s = 0; s < signals.size(); s++) {
        long place =
            header.headerBytes + record * header.recordBytes + signals.get(s).offsetInRecord();
        BigDecimal first = read.lists(source.bytes(record, signals.get(s)), place, s == 0);
        start = s == 0 ? first : start;
      }
      if (record == 0 && start != null) {
        read.offset = start;
        read.hasOffset = true;
      }
      read.recordStarts.add(start);
    }
    read.finish();
    return read;
  }

  /** Reads the lists of one signal in one record; returns the time-keeping onset if wanted. */
  private @Nullable BigDecimal lists(byte[] bytes, long place, boolean keepsTime) {
    BigDecimal keeping = null;
    boolean first = true;
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
      if (first && keepsTime) {
        keeping = onset;
      }
      first = false;
      at = end;
    }
    return keeping;
  }

  private @Nullable BigDecimal list(byte[] bytes, int from, int end, long place) {
    int stamp = from;
    while (stamp < end && bytes[stamp] != TEXT_END && bytes[stamp] != DURATION_START) {
      stamp++;
    }
    try {
      BigDecimal onset = number(bytes, from, stamp);
      BigDecimal duration = null;
      int text = stamp;
      if (stamp < end && bytes[stamp] == DURATION_START) {
        int stop = stamp + 1;
        while (stop < end && bytes[stop] != TEXT_END) {
          stop++;
        }
        duration = number(bytes, stamp + 1, stop);
        text = stop;
      }
      if (text >= end) {
        throw new NumberFormatException("no text end");
      }
      texts(bytes, text + 1, end, onset, duration);
      return onset;
    } catch (NumberFormatException e) {
      if (unreadable++ == 0) {
        firstUnreadable = "bytes " + (place + from) + " to " + (place + end);
      }
      return null;
    }
  }

  private void texts(
      byte[] bytes, int from, int end, BigDecimal onset, @Nullable BigDecimal duration) {
    int start = from;
    for (int k = from; k < end; k++) {
      if (bytes[k] == TEXT_END) {
        if (k > start) {
          String text = decode(bytes, start, k - start);
          coarsest = Math.min(coarsest, Math.max(0, onset.scale()));
          annotations.add(
              new Annotation(
                  onset.doubleValue(), duration == null ? null : duration.doubleValue(), text));
          onsets.add(onset);
        }
        start = k + 1;
      }
    }
  }

  private final List<BigDecimal> onsets = new ArrayList<>();

  private String decode(byte[] bytes, int from, int length) {
    String utf8 = new String(bytes, from, length, StandardCharsets.UTF_8);
    if (utf8.indexOf('\uFFFD') >= 0) {
      sawLatin = true;
      return new String(bytes, from, length, StandardCharsets.ISO_8859_1);
    }
    return utf8;
  }

  private static BigDecimal number(byte[] bytes, int from, int end) {
    return new BigDecimal(new String(bytes, from, end - from, StandardCharsets.US_ASCII).strip());
  }

  private void finish() {
    if (hasOffset) {
      for (int i = 0; i < annotations.size(); i++) {
        Annotation old = annotations.get(i);
        annotations.set(
            i,
            new Annotation(
                onsets.get(i).subtract(offset).doubleValue(), old.durationS(), old.text()));
      }
      for (int r = 0; r < recordStarts.size(); r++) {
        BigDecimal start = recordStarts.get(r);
        recordStarts.set(r, start == null ? null : start.subtract(offset));
      }
    }
    annotations.sort(Comparator.comparingDouble(Annotation::startS));
    if (unreadable > 0) {
      findings.add(
          Finding.caution(
              FindingCode.ANNOTATION_UNREADABLE,
              unreadable + " annotations could not be read, the first at " + firstUnreadable + ".",
              Evidence.NONE));
    }
    if (sawLatin) {
      findings.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "An annotation is not valid UTF-8; it was read as Latin-1.",
              Evidence.NONE));
    }
    if (coarsest < 6 && !annotations.isEmpty()) {
      findings.add(
          Finding.note(
              FindingCode.ANNOTATION_RESOLUTION,
              "Times of annotations are coarser than 1 us; they are never used for jitter.",
              Evidence.NONE));
    }
  }
}
