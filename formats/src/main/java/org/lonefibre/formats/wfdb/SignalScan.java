package org.lonefibre.formats.wfdb;

import org.lonefibre.formats.reader.SampleRuns;

/**
 * What one pass over a signal of one file tells; the samples that are there are added to the runs
 * of its channel. Thread rule: one thread.
 */
final class SignalScan {

  private final int missingValue;
  private final boolean hasMissing;
  private final long skipped;
  private final long sourceStart;
  private final SampleRuns.Builder runs;
  private long index;
  private long runStart;
  private int sum;
  private int sumOfPresent;
  private int lowest = Integer.MAX_VALUE;
  private int highest = Integer.MIN_VALUE;
  private boolean isTooBroken;
  private long missing;

  /**
   * @param skipped samples at the beginning that lie before the recording (skew)
   * @param sourceStart index in the channel of the first sample after those
   */
  SignalScan(WfdbFormat format, long skipped, long sourceStart, SampleRuns.Builder runs) {
    this.missingValue = format.missing();
    this.hasMissing = !format.isDifferences();
    this.skipped = skipped;
    this.sourceStart = sourceStart;
    this.runs = runs;
    this.runStart = skipped;
  }

  /** The next samples, in order. */
  void add(int[] values, int from, int count) {
    int added = 0;
    int least = Integer.MAX_VALUE;
    int most = Integer.MIN_VALUE;
    for (int k = from; k < from + count; k++) {
      added += values[k];
      least = Math.min(least, values[k]);
      most = Math.max(most, values[k]);
    }
    sum += added;
    if (hasMissing && least <= missingValue) {
      addSome(values, from, count);
    } else {
      sumOfPresent += added;
      lowest = Math.min(lowest, least);
      highest = Math.max(highest, most);
      index += count;
    }
  }

  /** Samples of which some are missing. */
  private void addSome(int[] values, int from, int count) {
    for (int k = from; k < from + count; k++) {
      if (values[k] == missingValue) {
        endRun();
        runStart = Math.max(skipped, index + 1);
        missing++;
      } else {
        sumOfPresent += values[k];
        lowest = Math.min(lowest, values[k]);
        highest = Math.max(highest, values[k]);
      }
      index++;
    }
  }

  private void endRun() {
    if (index > runStart && !isTooBroken) {
      isTooBroken = !runs.add(sourceStart + runStart - skipped, index - runStart);
    }
  }

  /** Ends the pass. */
  void end() {
    endRun();
    runStart = Math.max(index, skipped);
  }

  /** Whether samples are missing more often than is kept. */
  boolean isTooBroken() {
    return isTooBroken;
  }

  /** Samples that the file marks as missing. */
  long missing() {
    return missing;
  }

  /** Whether a checksum is that of the samples, missing ones counted or left out. */
  boolean fits(int checksum) {
    return (short) sum == checksum || (short) sumOfPresent == checksum;
  }

  /** Sum of all samples in 16 bits. */
  int checksum() {
    return (short) sum;
  }

  /** Whether all samples lie in a range. */
  boolean liesWithin(double low, double high) {
    return lowest >= low && highest <= high;
  }
}
