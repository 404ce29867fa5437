package org.lonefibre.formats.writer;

import java.util.Arrays;
import java.util.List;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Segment;

/**
 * The continuous stretches of a recording, counted in the shortest duration in which all channels
 * have whole numbers of samples.
 */
final class RecordUnits {

  private final long[] units;

  /** Greatest common divisor of all stretches but the last; 0 if there is only one. */
  private final long common;

  private RecordUnits(long[] units) {
    this.units = units;
    long divisor = 0;
    for (int s = 0; s < units.length - 1; s++) {
      divisor = gcd(divisor, units[s]);
    }
    this.common = divisor;
  }

  private static long gcd(long a, long b) {
    return b == 0 ? a : gcd(b, a % b);
  }

  /**
   * Counts.
   *
   * @param perUnit samples of each channel in a unit
   * @throws IllegalArgumentException if the gaps of the channels differ, or cut a unit
   */
  static RecordUnits of(List<Channel> channels, long[] perUnit) {
    List<Segment> first = channels.get(0).segments();
    for (int c = 1; c < perUnit.length; c++) {
      requireSame(channels.get(0), channels.get(c));
    }
    long[] units = new long[Math.max(1, first.size())];
    for (int s = 0; s < first.size(); s++) {
      for (int c = 0; c < perUnit.length; c++) {
        long samples = channels.get(c).segments().get(s).sampleCount();
        long own = (samples + perUnit[c] - 1) / perUnit[c];
        boolean whole = samples == own * perUnit[c] && (c == 0 || own == units[s]);
        if (!whole && s < first.size() - 1) {
          throw new IllegalArgumentException(
              "the gap after sample "
                  + samples
                  + " of stretch "
                  + (s + 1)
                  + " does not fall between whole samples of all channels");
        }
        units[s] = Math.max(units[s], own);
      }
    }
    return new RecordUnits(units);
  }

  private static void requireSame(Channel one, Channel other) {
    boolean same = one.segments().size() == other.segments().size();
    double sampleS = Math.min(one.timeBase().timeS(1), other.timeBase().timeS(1));
    for (int s = 0; same && s < one.segments().size(); s++) {
      double apartS = one.segments().get(s).startS() - other.segments().get(s).startS();
      same = Math.abs(apartS) < 0.5 * sampleS;
    }
    if (!same) {
      throw new IllegalArgumentException(
          "channels "
              + one.number()
              + " and "
              + other.number()
              + " have different gaps, which one file of records cannot hold");
    }
  }

  int count() {
    return units.length;
  }

  /** Whether records of so many units end where each gap begins. */
  boolean divides(long m) {
    return common % m == 0;
  }

  /** Units of the longest stretch. */
  long longest() {
    return Arrays.stream(units).max().orElse(0);
  }

  /** All units. */
  long total() {
    return Arrays.stream(units).sum();
  }

  /** Units that the last record of so many has beyond the recording. */
  long heldAtEnd(long m) {
    return (m - units[units.length - 1] % m) % m;
  }

  /** Records of each stretch. */
  long[] records(long m) {
    long[] records = new long[units.length];
    for (int s = 0; s < units.length; s++) {
      records[s] = (units[s] + m - 1) / m;
    }
    return records;
  }
}
