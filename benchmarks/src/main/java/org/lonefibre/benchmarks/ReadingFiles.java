package org.lonefibre.benchmarks;

import io.jhdf.HdfFile;
import io.jhdf.WritableHdfFile;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;

/** The same invented signal in a file of each format, with headers of our own making. */
final class ReadingFiles {

  /** Samples of a file; of a text a twentieth. */
  static final int COUNT = 30_000_000;

  static final int TEXT_COUNT = COUNT / 20;

  private static final int RATE_HZ = 50_000;

  private final short[] signal = new short[COUNT];

  private ReadingFiles() {
    Random random = new Random(1);
    double before = 0;
    for (int k = 0; k < COUNT; k++) {
      before = 0.9 * before + 60 * random.nextGaussian();
      signal[k] = (short) before;
    }
  }

  /** Writes one format into a folder; gives the file to open. */
  static Path write(String format, Path folder) throws IOException {
    ReadingFiles files = new ReadingFiles();
    return switch (format) {
      case "edf" -> bytes(folder, "s.edf", edf("0       ", "", 32_767), files.numbers(2));
      case "bdf" ->
          bytes(folder, "s.bdf", edf("\u00ffBIOSEMI", "24BIT", 0x7FFFFF), files.numbers(3));
      case "wav" -> bytes(folder, "s.wav", wav(1, 16), files.numbers(2));
      case "wav-float" -> bytes(folder, "f.wav", wav(3, 32), files.reals(4));
      case "raw" -> bytes(folder, "s.raw", ByteBuffer.allocate(0), files.numbers(2));
      case "wfdb" -> {
        bytes(folder, "s.dat", ByteBuffer.allocate(0), files.numbers(2));
        String header = "s 1 " + RATE_HZ + " " + COUNT + "\ns.dat 16 1(0)/uV 16 0 0 0 0 EMG\n";
        yield Files.writeString(folder.resolve("s.hea"), header);
      }
      case "mat" -> bytes(folder, "s.mat", mat(9, 7, 8), files.reals(8));
      case "mat-packed" -> files.packed(folder.resolve("p.mat"));
      case "hdf" -> files.hdf(folder.resolve("s.h5"));
      case "text" -> files.text(folder.resolve("s.csv"));
      default -> throw new IllegalArgumentException("no format " + format);
    };
  }

  private static Path bytes(Path folder, String name, ByteBuffer head, byte[] samples)
      throws IOException {
    Path file = folder.resolve(name);
    try (OutputStream out = Files.newOutputStream(file)) {
      out.write(head.array(), 0, head.position());
      out.write(samples);
    }
    return file;
  }

  private static ByteBuffer little(int bytes) {
    return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
  }

  private byte[] numbers(int width) {
    ByteBuffer bytes = little(width * COUNT);
    for (short value : signal) {
      bytes.putShort(value);
      if (width == 3) {
        bytes.put((byte) (value >> 15));
      }
    }
    return bytes.array();
  }

  private byte[] reals(int width) {
    ByteBuffer bytes = little(width * COUNT);
    for (short value : signal) {
      if (width == 4) {
        bytes.putFloat(value * 0.25f);
      } else {
        bytes.putDouble(value * 0.25);
      }
    }
    return bytes.array();
  }

  private static ByteBuffer edf(String first, String kind, int high) {
    StringBuilder head = new StringBuilder(first);
    String[] fields = {
      "X X X X",
      "Startdate X X X X",
      "24.11.26",
      "10.20.30",
      "512",
      kind,
      Integer.toString(COUNT / RATE_HZ),
      "1",
      "1",
      "EMG",
      "",
      "uV",
      Integer.toString(-high - 1),
      Integer.toString(high),
      Integer.toString(-high - 1),
      Integer.toString(high),
      "",
      Integer.toString(RATE_HZ),
      ""
    };
    int[] widths = {80, 80, 8, 8, 8, 44, 8, 8, 4, 16, 80, 8, 8, 8, 8, 8, 80, 8, 32};
    for (int f = 0; f < fields.length; f++) {
      head.append(fields[f]).append(" ".repeat(widths[f] - fields[f].length()));
    }
    return little(512).put(head.toString().getBytes(StandardCharsets.ISO_8859_1));
  }

  private static ByteBuffer wav(int coding, int bits) {
    ByteBuffer head = little(44);
    int bytes = bits / 8 * COUNT;
    head.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + bytes);
    head.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    head.putShort((short) coding).putShort((short) 1).putInt(RATE_HZ).putInt(bits / 8 * RATE_HZ);
    head.putShort((short) (bits / 8)).putShort((short) bits);
    return head.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(bytes);
  }

  /** What stands before the numbers of a column, with type and class as MATLAB numbers them. */
  private static ByteBuffer mat(int type, int matrixClass, int width) {
    ByteBuffer head = little(184);
    head.put("MATLAB 5.0 MAT-file".getBytes(StandardCharsets.US_ASCII));
    head.position(124).putShort((short) 0x0100).putShort((short) 0x4D49);
    head.putInt(14).putInt(48 + width * COUNT);
    head.putInt(6).putInt(8).putInt(matrixClass - 1).putInt(0);
    head.putInt(5).putInt(8).putInt(COUNT).putInt(1);
    head.putShort((short) 1).putShort((short) 3).put("emg\0".getBytes(StandardCharsets.US_ASCII));
    return head.putInt(type).putInt(width * COUNT);
  }

  private Path packed(Path file) throws IOException {
    byte[] head = mat(3, 11, 2).array();
    try (OutputStream out = Files.newOutputStream(file)) {
      java.io.ByteArrayOutputStream packed = new java.io.ByteArrayOutputStream();
      try (DeflaterOutputStream deflated = new DeflaterOutputStream(packed, new Deflater(3))) {
        deflated.write(head, 128, head.length - 128);
        deflated.write(numbers(2));
      }
      out.write(head, 0, 128);
      out.write(little(8).putInt(15).putInt(packed.size()).array());
      packed.writeTo(out);
    }
    return file;
  }

  private Path hdf(Path file) {
    try (WritableHdfFile hdf = HdfFile.write(file)) {
      hdf.putDataset("emg", signal);
    }
    return file;
  }

  private Path text(Path file) throws IOException {
    try (BufferedWriter out = Files.newBufferedWriter(file)) {
      for (int k = 0; k < TEXT_COUNT; k++) {
        out.write(signal[k] / 4 + "." + (signal[k] & 3) * 25 + "\n");
      }
    }
    return file;
  }
}
