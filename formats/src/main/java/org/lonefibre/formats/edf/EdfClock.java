package org.lonefibre.formats.edf;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Follows the times of the records and cuts the recording where time jumps. Keeps only the
 * stretches, however many records there are; all arithmetic is decimal.
 */
final class EdfClock {

  /**
   * Records that follow each other without a jump.
   *
   * @param startTime seconds after the start of the first record
   */
  record Stretch(long firstRecord, long endRecord, BigDecimal startTime) {}

  /** Whether the file allows time to jump between records. */
  enum Continuity {
    CONTINUOUS,
    INTERRUPTED
  }

  private static final BigDecimal HALF = new BigDecimal("0.5");

  private final String file;
  private final Continuity continuity;
  private final BigDecimal duration;
  private final BigDecimal halfSample;
  private final List<Stretch> closed = new ArrayList<>();
  private long runFirst;
  private @Nullable BigDecimal runStart;
  private @Nullable BigDecimal origin;

  EdfClock(EdfHeader header, Continuity continuity) {
    this.file = header.file;
    this.continuity = continuity;
    this.duration = header.recordDurationS;
    int most =
        header.signals.stream()
            .filter(signal -> !signal.isAnnotation())
            .mapToInt(EdfHeader.Signal::samplesPerRecord)
            .max()
            .orElse(1);
    this.halfSample =
        duration
            .multiply(HALF)
            .divide(BigDecimal.valueOf(Math.max(1, most)), 12, RoundingMode.HALF_EVEN);
  }

  /**
   * Takes the time of the next record.
   *
   * @param start its time as written; null if it cannot be read, then it follows the one before
   * @param place byte where the time stands
   * @throws RecordingFormatException if time runs backwards
   */
  void accept(long record, @Nullable BigDecimal start, long place) throws RecordingFormatException {
    if (start == null) {
      return;
    }
    BigDecimal before = runStart;
    if (before == null) {
      runStart = start.subtract(duration.multiply(BigDecimal.valueOf(record)));
      origin = runStart;
      return;
    }
    if (continuity == Continuity.CONTINUOUS) {
      return;
    }
    BigDecimal expected = before.add(duration.multiply(BigDecimal.valueOf(record - runFirst)));
    BigDecimal jump = start.subtract(expected);
    if (jump.abs().compareTo(tolerance(expected, start)) <= 0) {
      return;
    }
    if (jump.signum() < 0) {
      throw EdfHeader.fault(
          file,
          place,
          "time of record " + (record + 1),
          expected.toPlainString() + " s or later",
          start.toPlainString());
    }
    closed.add(new Stretch(runFirst, record, before.subtract(origin())));
    runFirst = record;
    runStart = start;
  }

  /**
   * Half a sample of the fastest signal, and what was lost if the time was written with too few
   * digits.
   */
  private BigDecimal tolerance(BigDecimal expected, BigDecimal written) {
    int digits = Math.max(0, written.scale());
    boolean rounded = expected.setScale(digits, RoundingMode.HALF_EVEN).compareTo(expected) != 0;
    return rounded ? halfSample.add(BigDecimal.ONE.movePointLeft(digits)) : halfSample;
  }

  /** Time of the first record as written; the fraction of a second at which it started. */
  BigDecimal origin() {
    BigDecimal first = origin;
    return first == null ? BigDecimal.ZERO : first;
  }

  /** The stretches of a recording of so many records, in order of time. */
  List<Stretch> stretches(long records) {
    List<Stretch> all = new ArrayList<>(closed);
    if (records > runFirst) {
      BigDecimal start = runStart;
      all.add(
          new Stretch(
              runFirst, records, start == null ? BigDecimal.ZERO : start.subtract(origin())));
    }
    return all;
  }
}
