package org.lonefibre.formats.writer;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.TimeBase;

/**
 * How a recording is cut into records: all channels have whole numbers of samples in one, its
 * duration is exact in eight characters, and it is as long as its bytes allow. A shorter one is
 * taken if only then the last record is full.
 *
 * <ul>
 *   <li>A record never reaches over a gap: its duration divides every stretch but the last.
 *   <li>Where no recommended length is exact a longer one is taken, since a rate that is not exact
 *       would let time drift.
 * </ul>
 */
final class RecordLayout {

  /** Kemp et al. (1992) recommend no longer records. */
  static final int MOST_RECORD_BYTES = 61_440;

  /** Longer records than this are refused; engineering choice. */
  private static final int LONGEST_RECORD_BYTES = 1 << 23;

  /** What is held at the end of a long record is at most one in so many; engineering choice. */
  private static final int LEAST_FILL = 10;

  /** How much shorter a record may become for the last to be fuller; engineering choice. */
  private static final int MOST_SHORTENING = 64;

  /** Of the eight characters of a duration, a digit and the point stand before them. */
  private static final int MOST_DECIMALS = 6;

  final BigDecimal duration;
  final long records;
  private final int[] samplesPerRecord;
  private final long[] recordsOfSegment;

  private RecordLayout(BigDecimal duration, int[] samplesPerRecord, long[] recordsOfSegment) {
    this.duration = duration;
    this.records = Arrays.stream(recordsOfSegment).sum();
    this.samplesPerRecord = samplesPerRecord;
    this.recordsOfSegment = recordsOfSegment;
  }

  int samplesPerRecord(int channel) {
    return samplesPerRecord[channel];
  }

  int segments() {
    return recordsOfSegment.length;
  }

  long recordsOfSegment(int segment) {
    return recordsOfSegment[segment];
  }

  boolean isInterrupted() {
    return recordsOfSegment.length > 1;
  }

  /**
   * The layout of these channels.
   *
   * @param roomBytes bytes of a record for samples
   * @throws IllegalArgumentException if no such duration exists
   */
  static RecordLayout of(List<Channel> channels, int sampleBytes, int roomBytes) {
    BigInteger seconds = BigInteger.ONE;
    for (Channel channel : channels) {
      BigInteger own = BigInteger.valueOf(channel.timeBase().seconds());
      seconds = seconds.multiply(own).divide(seconds.gcd(own));
    }
    BigInteger shares = BigInteger.ZERO;
    for (Channel channel : channels) {
      shares = shares.gcd(samplesIn(channel.timeBase(), seconds));
    }
    // The shortest duration with whole numbers of samples is seconds / shares.
    long[] perUnit = new long[channels.size()];
    long bytesPerUnit = 0;
    for (int c = 0; c < perUnit.length; c++) {
      perUnit[c] = samplesIn(channels.get(c).timeBase(), seconds).divide(shares).longValueExact();
      bytesPerUnit = Math.addExact(bytesPerUnit, perUnit[c] * sampleBytes);
    }
    RecordUnits units = RecordUnits.of(channels, perUnit);
    long step = leastDecimal(seconds, shares);
    long chosen = 0;
    long longest = 0;
    long fewest = Long.MAX_VALUE;
    long room = Math.min(roomBytes / bytesPerUnit, Math.max(1, units.longest()));
    for (long m = (room + step - 1) / step * step; m >= 1; m -= step) {
      boolean fits = m <= roomBytes / bytesPerUnit;
      if (!fits
          || !units.divides(m)
          || !isPrintable(seconds.multiply(BigInteger.valueOf(m)), shares)) {
        continue;
      }
      longest = longest == 0 ? m : longest;
      if (m * MOST_SHORTENING < longest || fewest == 0) {
        break;
      }
      if (units.heldAtEnd(m) < fewest) {
        fewest = units.heldAtEnd(m);
        chosen = m;
      }
    }
    for (long m = step; chosen == 0 && m * bytesPerUnit <= LONGEST_RECORD_BYTES; m += step) {
      if (units.divides(m)
          && units.heldAtEnd(m) <= units.total() / LEAST_FILL
          && isPrintable(seconds.multiply(BigInteger.valueOf(m)), shares)) {
        chosen = m;
      }
    }
    if (chosen == 0) {
      throw new IllegalArgumentException(
          units.count() > 1
              ? "the gaps of this recording do not fall on whole records of one exact length"
              : "these sampling rates cannot be written exactly in records of at most "
                  + LONGEST_RECORD_BYTES
                  + " bytes that this recording fills");
    }
    int[] samples = new int[perUnit.length];
    for (int c = 0; c < samples.length; c++) {
      samples[c] = Math.toIntExact(perUnit[c] * chosen);
    }
    return new RecordLayout(
        duration(seconds.multiply(BigInteger.valueOf(chosen)), shares),
        samples,
        units.records(chosen));
  }

  private static BigInteger samplesIn(TimeBase timeBase, BigInteger seconds) {
    return BigInteger.valueOf(timeBase.samples())
        .multiply(seconds)
        .divide(BigInteger.valueOf(timeBase.seconds()));
  }

  /** A duration of so many units, or a multiple, and of no others, has six decimals at most. */
  private static long leastDecimal(BigInteger seconds, BigInteger shares) {
    return shares
        .divide(shares.gcd(seconds.multiply(BigInteger.TEN.pow(MOST_DECIMALS))))
        .min(BigInteger.valueOf(LONGEST_RECORD_BYTES))
        .longValueExact();
  }

  private static boolean isPrintable(BigInteger numerator, BigInteger denominator) {
    BigInteger rest = denominator.divide(numerator.gcd(denominator));
    rest = without(without(rest, BigInteger.TWO), BigInteger.valueOf(5));
    return rest.equals(BigInteger.ONE)
        && duration(numerator, denominator).toPlainString().length() <= 8;
  }

  private static BigInteger without(BigInteger value, BigInteger factor) {
    BigInteger rest = value;
    while (rest.mod(factor).signum() == 0) {
      rest = rest.divide(factor);
    }
    return rest;
  }

  private static BigDecimal duration(BigInteger numerator, BigInteger denominator) {
    return new BigDecimal(numerator).divide(new BigDecimal(denominator)).stripTrailingZeros();
  }
}
