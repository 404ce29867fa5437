package org.lonefibre.formats.writer;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.TimeBase;

/**
 * How a recording is cut into records: all channels have whole numbers of samples in one, its
 * duration is exact in eight characters, and it is as long as its bytes allow. A shorter one is
 * taken if only then the last record is full.
 */
final class RecordLayout {

  /** Kemp et al. (1992) recommend no longer records. */
  static final int MOST_RECORD_BYTES = 61_440;

  /** How much shorter a record may become for the last to be full; engineering choice. */
  private static final int MOST_SHORTENING = 64;

  final BigDecimal duration;
  final long records;
  private final int[] samplesPerRecord;

  private RecordLayout(BigDecimal duration, long records, int[] samplesPerRecord) {
    this.duration = duration;
    this.records = records;
    this.samplesPerRecord = samplesPerRecord;
  }

  int samplesPerRecord(int channel) {
    return samplesPerRecord[channel];
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
    long units = 0;
    boolean even = true;
    for (int c = 0; c < perUnit.length; c++) {
      Channel channel = channels.get(c);
      perUnit[c] = samplesIn(channel.timeBase(), seconds).divide(shares).longValueExact();
      bytesPerUnit = Math.addExact(bytesPerUnit, perUnit[c] * sampleBytes);
      long own = (channel.sampleCount() + perUnit[c] - 1) / perUnit[c];
      even &= channel.sampleCount() == own * perUnit[c] && (c == 0 || own == units);
      units = Math.max(units, own);
    }
    long most = roomBytes / bytesPerUnit;
    long longest = 0;
    long chosen = 0;
    for (long m = most; m >= 1 && chosen == 0; m--) {
      if (isPrintable(seconds.multiply(BigInteger.valueOf(m)), shares)) {
        longest = longest == 0 ? m : longest;
        boolean full = even && units % m == 0;
        if (full && m * MOST_SHORTENING >= longest) {
          chosen = m;
        } else if (!even || m * MOST_SHORTENING < longest) {
          chosen = longest;
        }
      }
    }
    chosen = chosen == 0 ? longest : chosen;
    if (chosen == 0) {
      throw new IllegalArgumentException(
          "these sampling rates cannot be written exactly in records of at most "
              + MOST_RECORD_BYTES
              + " bytes");
    }
    int[] samples = new int[perUnit.length];
    for (int c = 0; c < samples.length; c++) {
      samples[c] = Math.toIntExact(perUnit[c] * chosen);
    }
    return new RecordLayout(
        duration(seconds.multiply(BigInteger.valueOf(chosen)), shares),
        (units + chosen - 1) / chosen,
        samples);
  }

  private static BigInteger samplesIn(TimeBase timeBase, BigInteger seconds) {
    return BigInteger.valueOf(timeBase.samples())
        .multiply(seconds)
        .divide(BigInteger.valueOf(timeBase.seconds()));
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
