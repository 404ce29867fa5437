package org.lonefibre.formats.writer;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.lonefibre.signal.recording.Annotation;

/**
 * The bytes of the annotation signal, record by record. An annotation stands in the record in which
 * it begins, or before where many come together.
 */
final class AnnotationLists {

  /** Time of a record with its terminators; the time has at most 20 characters. */
  private static final int TIME_BYTES = 24;

  private final List<Annotation> sorted;
  private final BigDecimal origin;
  private final int longest;
  private final long total;
  private int next;
  private long remaining;

  /**
   * @param origin fraction of a second at which the recording starts
   */
  AnnotationLists(List<Annotation> annotations, BigDecimal origin) {
    this.origin = origin;
    this.sorted = new ArrayList<>(annotations);
    sorted.sort(Comparator.comparingDouble(Annotation::startS));
    int most = 0;
    long sum = 0;
    for (Annotation annotation : sorted) {
      int length = bytes(annotation).length;
      most = Math.max(most, length);
      sum += length;
    }
    this.longest = most;
    this.total = sum;
    this.remaining = sum;
  }

  /** Bytes a record must hold so that so many records hold all annotations. */
  int bytesNeeded(long records) {
    return Math.toIntExact(Math.min(Integer.MAX_VALUE, TIME_BYTES + longest + share(records)));
  }

  boolean isEmpty() {
    return sorted.isEmpty();
  }

  private long share(long records) {
    return records == 0 ? 0 : (total + records - 1) / records;
  }

  /**
   * Fills the annotation signal of the next record.
   *
   * @param start of the record since the start of the recording
   */
  void fill(byte[] bytes, long record, long records, BigDecimal start, BigDecimal duration) {
    Arrays.fill(bytes, (byte) 0);
    BigDecimal exact = start.add(origin).setScale(12, RoundingMode.HALF_EVEN).stripTrailingZeros();
    // As fine as the duration, so that nobody takes the times for rounded ones.
    int digits = Math.max(exact.scale(), duration.stripTrailingZeros().scale());
    byte[] time =
        ("+" + exact.setScale(Math.max(0, digits)).toPlainString() + "\u0014\u0014\u0000")
            .getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(time, 0, bytes, 0, time.length);
    int at = time.length;
    double endS = start.add(duration).doubleValue();
    long later = (records - record - 1) * share(records);
    while (next < sorted.size() && (sorted.get(next).startS() < endS || remaining > later)) {
      byte[] written = bytes(sorted.get(next));
      if (at + written.length > bytes.length) {
        return;
      }
      System.arraycopy(written, 0, bytes, at, written.length);
      at += written.length;
      remaining -= written.length;
      next++;
    }
  }

  private byte[] bytes(Annotation annotation) {
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(Locale.ROOT, "%+.7f", origin.add(BigDecimal.valueOf(annotation.startS()))));
    Double duration = annotation.durationS();
    if (duration != null) {
      text.append('\u0015').append(String.format(Locale.ROOT, "%.7f", duration));
    }
    text.append('\u0014').append(harmless(annotation.text())).append("\u0014\u0000");
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  /** Control characters would end the text early or begin another annotation. */
  private static String harmless(String text) {
    StringBuilder kept = new StringBuilder();
    text.chars().forEach(c -> kept.append(Character.isISOControl(c) ? ' ' : (char) c));
    return kept.toString();
  }
}
