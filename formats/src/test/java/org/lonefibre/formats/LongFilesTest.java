package org.lonefibre.formats;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * A day at 50 kHz in every format that can hold it (row 17 of the list of faults). The files have
 * holes, so they take no room on the disk; the last samples are written and read.
 */
class LongFilesTest {

  private static final long DAY = 24L * 3600 * 50_000;
  private static final int MOST_BYTES = 16 << 20;
  private static final ReadOptions RATE = new ReadOptions(50_000.0, null);
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  @TempDir Path folder;

  private Path sparse(String name, byte[] head, long bytes, byte[] tail) throws IOException {
    Path path = folder.resolve(name);
    try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw")) {
      file.write(head);
      file.setLength(bytes);
      file.seek(bytes - tail.length);
      file.write(tail);
    }
    return path;
  }

  private static ByteBuffer little(int bytes) {
    return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
  }

  private void requireLittleMemory(Path file, ReadOptions options, long count, double last)
      throws IOException {
    long before = THREADS.getCurrentThreadAllocatedBytes();
    try (Recording recording = RecordingReaders.open(file, options)) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.sampleCount()).isEqualTo(count);
      double[] block = new double[65_536];
      for (long at : new long[] {0, count / 2, count - block.length}) {
        recording.read(channel, at, block, 0, block.length);
      }
      assertThat(block[block.length - 1]).isEqualTo(last);
    }
    assertThat(THREADS.getCurrentThreadAllocatedBytes() - before).isLessThan(MOST_BYTES);
  }

  private static byte[] edfHead(String first, String label, int recordBytes) {
    StringBuilder head = new StringBuilder();
    field(head, "X X X X", 80);
    field(head, "Startdate X X X X", 80);
    field(head, "24.11.26", 8);
    field(head, "10.20.30", 8);
    field(head, "512", 8);
    field(head, label, 44);
    field(head, "86400", 8);
    field(head, "1", 8);
    field(head, "1", 4);
    field(head, "EMG", 16);
    field(head, "", 80);
    field(head, "uV", 8);
    boolean wide = recordBytes == 150_000;
    field(head, wide ? "-8388608" : "-32768", 8);
    field(head, wide ? "8388607" : "32767", 8);
    field(head, wide ? "-8388608" : "-32768", 8);
    field(head, wide ? "8388607" : "32767", 8);
    field(head, "", 80);
    field(head, "50000", 8);
    field(head, "", 32);
    return (first + head).getBytes(StandardCharsets.ISO_8859_1);
  }

  private static void field(StringBuilder head, String text, int width) {
    head.append(text).append(" ".repeat(width - text.length()));
  }

  @Test
  void edf() throws IOException {
    byte[] head = edfHead("0       ", "", 100_000);
    Path file = sparse("day.edf", head, 512 + 2 * DAY, new byte[] {3, 1});
    requireLittleMemory(file, ReadOptions.defaults(), DAY, 259);
  }

  @Test
  void bdf() throws IOException {
    byte[] head = edfHead("\u00ffBIOSEMI", "24BIT", 150_000);
    Path file = sparse("day.bdf", head, 512 + 3 * DAY, new byte[] {3, 1, -1});
    requireLittleMemory(file, ReadOptions.defaults(), DAY, -65_277);
  }

  @Test
  void bareNumbers() throws IOException {
    Path file = sparse("day.raw", new byte[0], 2 * DAY, new byte[] {3, 1});
    requireLittleMemory(file, RATE.withRaw(RawLayout.of("int16le", 1, 0)), DAY, 259);
  }

  @Test
  void wav() throws IOException {
    ByteBuffer head = little(80);
    head.put("RF64".getBytes(StandardCharsets.US_ASCII)).putInt(-1);
    head.put("WAVEds64".getBytes(StandardCharsets.US_ASCII)).putInt(28);
    head.putLong(72 + 2 * DAY).putLong(2 * DAY).putLong(DAY).putInt(0);
    head.put("fmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    head.putShort((short) 1).putShort((short) 1).putInt(50_000).putInt(100_000);
    head.putShort((short) 2).putShort((short) 16);
    head.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(-1);
    Path file = sparse("day.wav", head.array(), 80 + 2 * DAY, new byte[] {3, 1});
    requireLittleMemory(file, ReadOptions.defaults(), DAY, 259);
  }

  @Test
  void wfdb() throws IOException {
    String header = "day 1 50000 0\nday.dat 16 1(0)/uV 16 0 0 0 0 EMG\n";
    Files.writeString(folder.resolve("day.hea"), header);
    // Opening goes once through all samples: a tenth of an hour does here.
    long count = DAY / 240;
    sparse("day.dat", new byte[0], 2 * count, new byte[] {3, 1});
    requireLittleMemory(folder.resolve("day.hea"), ReadOptions.defaults(), count, 259);
  }

  /** Numbers in one piece; h5py 3.16.0 wrote what stands before the numbers. */
  @Test
  void hdf() throws IOException {
    byte[] head;
    try (InputStream in = getClass().getResourceAsStream("hdf/day-without-numbers.h5")) {
      head = in.readAllBytes();
    }
    Path file = sparse("day.h5", head, head.length + 2 * DAY, new byte[] {3, 1});
    requireLittleMemory(file, RATE, DAY, 259);
  }

  /** A variable of MATLAB 5 is at most 4 GB: 11 h at 50 kHz. */
  @Test
  void matlab() throws IOException {
    long count = (1L << 31) - 64;
    Path file = sparse("long.mat", mat(count), 128 + 56 + 2 * count, new byte[] {3, 1});
    requireLittleMemory(file, RATE, count, 259);
  }

  @Test
  void compressedMatlab() throws IOException {
    long count = 20_000_000;
    byte[] all = mat(count);
    ByteArrayOutputStream deflated = new ByteArrayOutputStream();
    try (DeflaterOutputStream out =
        new DeflaterOutputStream(deflated, new Deflater(Deflater.BEST_SPEED))) {
      out.write(all, 128, all.length - 128);
      byte[] zeros = new byte[1_000_000];
      for (long at = 0; at < 2 * count - zeros.length; at += zeros.length) {
        out.write(zeros);
      }
      zeros[zeros.length - 2] = 3;
      zeros[zeros.length - 1] = 1;
      out.write(zeros);
    }
    ByteBuffer bytes = little(136 + deflated.size());
    bytes.put(all, 0, 128).putInt(15).putInt(deflated.size()).put(deflated.toByteArray());
    Path file = Files.write(folder.resolve("packed.mat"), bytes.array());
    requireLittleMemory(file, RATE, count, 259);
  }

  /** What stands before the numbers of a column of 16 bits. */
  private static byte[] mat(long count) {
    ByteBuffer head = little(128 + 56);
    head.put("MATLAB 5.0 MAT-file".getBytes(StandardCharsets.US_ASCII));
    head.position(124).putShort((short) 0x0100).putShort((short) 0x4D49);
    head.putInt(14).putInt((int) (48 + 2 * count));
    head.putInt(6).putInt(8).putInt(10).putInt(0);
    head.putInt(5).putInt(8).putInt((int) count).putInt(1);
    head.putShort((short) 1).putShort((short) 3).put("emg\0".getBytes(StandardCharsets.US_ASCII));
    head.putInt(3).putInt((int) (2 * count));
    return head.array();
  }
}
