package org.lonefibre.formats.edf;

import java.io.IOException;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import org.lonefibre.formats.reader.FileBytes;

/**
 * Reads bytes and samples by their position in the file.
 *
 * <ul>
 *   <li>Where the signals of other channels between two runs of a channel are short, whole records
 *       are read at once; else each run by itself.
 *   <li>Never more than {@value #CHUNK_BYTES} bytes at once, whatever the header claims.
 *   <li>Thread rule: safe; every call has its own buffer and positions are absolute.
 * </ul>
 */
final class EdfSamples {

  /** Fits the second-level cache of usual processors; engineering choice. */
  private static final int CHUNK_BYTES = 1 << 18;

  /** Reading this many unwanted bytes takes about as long as another call; engineering choice. */
  static final int SKIP_BYTES = 1 << 13;

  /** More text than this in one record is no annotation; engineering choice. */
  private static final int MOST_SIGNAL_BYTES = 1 << 26;

  private static final VarHandle SHORTS =
      MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);

  private final EdfHeader header;
  private final FileChannel file;

  /** What turns the numbers of one channel into samples. */
  record Scale(EdfHeader.Signal signal, double gain, double offset) {}

  EdfSamples(EdfHeader header, FileChannel file) {
    this.header = header;
    this.file = file;
  }

  /** The bytes of one signal in one record. */
  byte[] bytes(long record, EdfHeader.Signal signal) throws IOException {
    long length = (long) signal.samplesPerRecord() * header.sampleBytes();
    if (length > MOST_SIGNAL_BYTES) {
      throw EdfHeader.fault(
          header.file,
          EdfHeader.FIXED_BYTES + 216L * header.signals.size() + 8L * signal.index(),
          "number of samples of signal " + (signal.index() + 1),
          "annotations of at most " + MOST_SIGNAL_BYTES + " bytes in a record",
          Integer.toString(signal.samplesPerRecord()));
    }
    byte[] bytes = new byte[(int) length];
    fill(bytes, bytes.length, place(record, signal, 0));
    return bytes;
  }

  /** The bytes of whole records that follow each other; they must be short. */
  byte[] records(long record, int count) throws IOException {
    byte[] bytes = new byte[Math.toIntExact(count * header.recordBytes)];
    fill(bytes, bytes.length, header.headerBytes + record * header.recordBytes);
    return bytes;
  }

  /** The bytes of the header. */
  byte[] header() throws IOException {
    byte[] bytes = new byte[header.headerBytes];
    fill(bytes, bytes.length, 0);
    return bytes;
  }

  /** Position in the file of a sample of a record. */
  long place(long record, EdfHeader.Signal signal, int within) {
    return header.headerBytes
        + record * header.recordBytes
        + signal.offsetInRecord()
        + (long) within * header.sampleBytes();
  }

  void read(Scale scale, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    int perRecord = scale.signal().samplesPerRecord();
    int width = header.sampleBytes();
    long between = header.recordBytes - (long) perRecord * width;
    boolean whole = between <= SKIP_BYTES && header.recordBytes <= CHUNK_BYTES;
    long recordsAtOnce = whole ? CHUNK_BYTES / header.recordBytes : 1;
    byte[] buffer = new byte[0];
    long at = firstSample;
    int done = 0;
    while (done < length) {
      long record = at / perRecord;
      int within = (int) (at % perRecord);
      long most =
          whole
              ? recordsAtOnce * perRecord - within
              : Math.min(perRecord - within, CHUNK_BYTES / width);
      int count = (int) Math.min(length - done, most);
      long last = at + count - 1;
      long from = place(record, scale.signal(), within);
      int span =
          (int) (place(last / perRecord, scale.signal(), (int) (last % perRecord)) + width - from);
      if (buffer.length < span) {
        buffer = new byte[span];
      }
      fill(buffer, span, from);
      runs(buffer, scale, within, count, destination, offset + done);
      at += count;
      done += count;
    }
  }

  /** Decodes samples that begin at the start of the buffer and may go on in later records. */
  private void runs(
      byte[] bytes, Scale scale, int within, int count, double[] destination, int offset) {
    int perRecord = scale.signal().samplesPerRecord();
    int width = header.sampleBytes();
    int gap = (int) Math.min(Integer.MAX_VALUE, header.recordBytes - (long) perRecord * width);
    int from = 0;
    int done = 0;
    int room = perRecord - within;
    while (done < count) {
      int run = Math.min(count - done, room);
      if (header.is24Bit) {
        run24(bytes, from, run, scale, destination, offset + done);
      } else {
        run16(bytes, from, run, scale, destination, offset + done);
      }
      done += run;
      from += run * width + gap;
      room = perRecord;
    }
  }

  private static void run16(
      byte[] bytes, int from, int count, Scale scale, double[] destination, int offset) {
    double gain = scale.gain();
    double base = scale.offset();
    for (int k = 0; k < count; k++) {
      short value = (short) SHORTS.get(bytes, from + 2 * k);
      destination[offset + k] = gain * value + base;
    }
  }

  private static void run24(
      byte[] bytes, int from, int count, Scale scale, double[] destination, int offset) {
    double gain = scale.gain();
    double base = scale.offset();
    for (int k = 0; k < count; k++) {
      int b = from + 3 * k;
      int value = (bytes[b] & 0xFF) | (bytes[b + 1] & 0xFF) << 8 | bytes[b + 2] << 16;
      destination[offset + k] = gain * value + base;
    }
  }

  private void fill(byte[] bytes, int length, long at) throws IOException {
    FileBytes.fill(header.file, file, at, ByteBuffer.wrap(bytes, 0, length));
  }
}
