package org.lonefibre.formats.edf;

import java.io.IOException;
import java.util.Arrays;

/**
 * Gives the bytes of signals record after record; short records are read many at a time, because a
 * call for each would take longer than the bytes. Thread rule: one thread.
 */
final class EdfWindow {

  private static final int MOST_BYTES = 1 << 18;

  private final EdfHeader header;
  private final EdfSamples samples;
  private final long records;
  private final int recordsAtOnce;
  private byte[] window = new byte[0];
  private long first;
  private long end;

  /**
   * @param records records there are; none after them is touched
   */
  EdfWindow(EdfHeader header, EdfSamples samples, long records) {
    this.header = header;
    this.samples = samples;
    this.records = records;
    this.recordsAtOnce =
        header.recordBytes <= EdfSamples.SKIP_BYTES ? (int) (MOST_BYTES / header.recordBytes) : 0;
  }

  /** The bytes of one signal in one record. */
  byte[] bytes(long record, EdfHeader.Signal signal) throws IOException {
    if (recordsAtOnce == 0) {
      return samples.bytes(record, signal);
    }
    if (record < first || record >= end) {
      int count = (int) Math.min(recordsAtOnce, records - record);
      window = samples.records(record, count);
      first = record;
      end = record + count;
    }
    int from = (int) ((record - first) * header.recordBytes + signal.offsetInRecord());
    return Arrays.copyOfRange(
        window, from, from + signal.samplesPerRecord() * header.sampleBytes());
  }
}
