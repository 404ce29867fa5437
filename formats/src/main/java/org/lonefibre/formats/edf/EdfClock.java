package org.lonefibre.formats.edf;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Follows the times of the records and cuts the recording where time jumps. Keeps only what differs
 * from an even course, however many records there are; all arithmetic is decimal.
 *
 * <ul>
 *   <li>In an interrupted recording a jump counts from half a sample of the fastest signal on, and
 *       one unit of the last digit more where the times are written too coarsely to show the
 *       duration of a record and what is lost by that does not add up. How finely they are written
 *       is known only after the last one, because zeros at the end are often trimmed.
 *   <li>A recording that says it is continuous is believed up to half a record: clocks that stroll
 *       are common, lost records are what is looked for.
 *   <li>No stretch begins before the one before it ends, whatever small steps back add up to.
 *   <li>A record whose time cannot be read goes with its neighbours only if no time is missing
 *       between them.
 * </ul>
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

  /**
   * A record that does not begin when the one before ends.
   *
   * @param firstUnknown first record before it whose time cannot be read; itself if there is none
   * @param unknownStart when that one begins if it follows the one before
   */
  private record Jump(
      long firstUnknown,
      BigDecimal unknownStart,
      long record,
      BigDecimal start,
      BigDecimal size,
      long place) {}

  private static final BigDecimal HALF = new BigDecimal("0.5");

  private final String file;
  private final Continuity continuity;
  private final BigDecimal duration;
  private final BigDecimal halfSample;
  private final List<Jump> jumps = new ArrayList<>();
  private @Nullable BigDecimal origin;

  /** When the next record should begin. */
  private BigDecimal due = BigDecimal.ZERO;

  private BigDecimal unknownStart = BigDecimal.ZERO;
  private long firstUnknown = -1;
  private int finestDigits;

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
   * @param start its time as written; null if it cannot be read
   * @param place byte where the time stands
   */
  void accept(long record, @Nullable BigDecimal start, long place) {
    if (start == null) {
      if (origin != null && firstUnknown < 0) {
        firstUnknown = record;
        unknownStart = due;
      }
      due = due.add(duration);
      return;
    }
    finestDigits = Math.max(finestDigits, start.scale());
    if (origin == null) {
      origin = start.subtract(duration.multiply(BigDecimal.valueOf(record)));
    } else if (start.compareTo(due) != 0) {
      boolean unknown = firstUnknown >= 0;
      jumps.add(
          new Jump(
              unknown ? firstUnknown : record,
              unknown ? unknownStart : start,
              record,
              start,
              start.subtract(due),
              place));
    }
    firstUnknown = -1;
    due = start.add(duration);
  }

  /** Time of the first record as written; the fraction of a second at which it started. */
  BigDecimal origin() {
    BigDecimal first = origin;
    return first == null ? BigDecimal.ZERO : first;
  }

  /**
   * The stretches of a recording of so many records, in order of time.
   *
   * @throws RecordingFormatException if time runs backwards in an interrupted recording
   */
  List<Stretch> stretches(long records) throws RecordingFormatException {
    List<Stretch> all = new ArrayList<>();
    if (records == 0) {
      return all;
    }
    BigDecimal least = leastJump();
    long first = 0;
    BigDecimal start = origin();
    for (Jump jump : jumps) {
      if (jump.size().abs().compareTo(least) <= 0) {
        continue;
      }
      if (jump.size().signum() < 0) {
        if (continuity == Continuity.CONTINUOUS) {
          continue;
        }
        throw EdfHeader.fault(
            file,
            jump.place(),
            "time of record " + (jump.record() + 1),
            jump.start().subtract(jump.size()).toPlainString() + " s or later",
            jump.start().toPlainString());
      }
      BigDecimal end = end(start, first, jump.record());
      if (continuity == Continuity.CONTINUOUS && jump.start().subtract(end).compareTo(least) <= 0) {
        // Only makes up for a step back that was not believed.
        continue;
      }
      all.add(new Stretch(first, jump.firstUnknown(), start.subtract(origin())));
      if (jump.firstUnknown() < jump.record()) {
        BigDecimal unknown = jump.unknownStart().max(end(start, first, jump.firstUnknown()));
        all.add(new Stretch(jump.firstUnknown(), jump.record(), unknown.subtract(origin())));
      }
      first = jump.record();
      start = jump.start().max(end);
    }
    if (firstUnknown > first && continuity == Continuity.INTERRUPTED) {
      all.add(new Stretch(first, firstUnknown, start.subtract(origin())));
      start = unknownStart.max(end(start, first, firstUnknown));
      first = firstUnknown;
    }
    all.add(new Stretch(first, records, start.subtract(origin())));
    return all;
  }

  /** When a stretch that began with a record ends if it goes on to another. */
  private BigDecimal end(BigDecimal start, long first, long record) {
    return start.add(duration.multiply(BigDecimal.valueOf(record - first)));
  }

  private BigDecimal leastJump() {
    if (continuity == Continuity.CONTINUOUS) {
      return duration.multiply(HALF);
    }
    boolean coarse = duration.stripTrailingZeros().scale() > finestDigits;
    BigDecimal loose = halfSample.add(BigDecimal.ONE.movePointLeft(finestDigits));
    return coarse && areRounded(loose) ? loose : halfSample;
  }

  /**
   * Whether the times may be rounded ones: small jumps of records that are not apart do not add up.
   * Those of records that are apart do, however their zeros are trimmed.
   */
  private boolean areRounded(BigDecimal loose) {
    long first = 0;
    BigDecimal start = origin();
    for (Jump jump : jumps) {
      if (jump.size().abs().compareTo(loose) > 0) {
        first = jump.record();
        start = jump.start();
      } else if (jump.start().subtract(end(start, first, jump.record())).abs().compareTo(loose)
          > 0) {
        return false;
      }
    }
    return true;
  }
}
