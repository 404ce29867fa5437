package org.lonefibre.formats.fuzz;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.lonefibre.formats.edf.EdfFile;
import org.lonefibre.formats.wav.WavFile;
import org.lonefibre.formats.wfdb.WfdbFile;
import org.lonefibre.formats.writer.EdfPlusWriter;
import org.lonefibre.formats.writer.MadeRecording;
import us.hebi.matlab.mat.format.Mat5;
import us.hebi.matlab.mat.types.MatFile;
import us.hebi.matlab.mat.types.MatlabType;
import us.hebi.matlab.mat.types.Matrix;
import us.hebi.matlab.mat.types.Sink;
import us.hebi.matlab.mat.types.Sinks;

/** Good files to begin with: our own, inputs that once found a fault, and small ones of others. */
final class FuzzSeeds {

  private static final long MOST_BYTES = 11_000;

  private FuzzSeeds() {}

  static List<byte[]> list(FuzzTarget target) throws IOException {
    List<byte[]> seeds = new ArrayList<>();
    switch (target) {
      case EDF -> edf(seeds);
      case TEXT -> text(seeds);
      case WFDB -> wfdb(seeds);
      case WAV -> wav(seeds);
      case MAT -> mat(seeds);
      case RAW -> raw(seeds);
      case SWEEPS -> sweeps(seeds);
      case INTERVALS -> intervals(seeds);
      case HDF -> {}
    }
    String name = target.name().toLowerCase(Locale.ROOT);
    Path resources = Path.of("src/test/resources/org/lonefibre/formats/fuzz", name);
    files(seeds, resources);
    Path shared = Path.of("../../shared/data");
    switch (target) {
      case EDF, WAV -> files(seeds, shared.resolve(name));
      default -> {}
    }
    return seeds;
  }

  private static void files(List<byte[]> seeds, Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.sorted().toList()) {
        if (Files.isRegularFile(file) && Files.size(file) <= MOST_BYTES) {
          seeds.add(Files.readAllBytes(file));
        }
      }
    }
  }

  private static void edf(List<byte[]> seeds) throws IOException {
    Path folder = Files.createTempDirectory("seeds");
    Path file = folder.resolve("made.edf");
    EdfPlusWriter.write(MadeRecording.jitterStudy(800), "subject", MadeRecording.START, file);
    seeds.add(Files.readAllBytes(file));
    Files.delete(file);
    Files.delete(folder);
    for (EdfFile small : List.of(EdfFile.edf(), EdfFile.bdf())) {
      seeds.add(small.signal("EMG 1", "uV", 30).signal("EMG 2", "mV", 7).duration("0.32").bytes());
    }
    String[] times = {"0", "1", "7.5", "9"};
    seeds.add(
        EdfFile.edf()
            .reserved("EDF+D")
            .signal("EMG", "uV", 20)
            .annotations(
                r -> "+" + times[r] + "\u0014\u0014\u0000+2.5\u00150.1\u0014site 1\u0014\u0000")
            .bytes());
    seeds.add(
        EdfFile.bdf()
            .reserved("BDF+C")
            .records("-1", 4)
            .signal("EMG", "", 20)
            .annotations(r -> "+" + r + ".25\u0014\u0014stim\u0014\u0000")
            .bytes());
  }

  private static void text(List<byte[]> seeds) {
    StringBuilder comma = new StringBuilder("time (s),EMG (uV),\"B [mV]\"\n");
    StringBuilder semicolon = new StringBuilder("# note\nZeit;EMG\ns;mV\n");
    StringBuilder blank = new StringBuilder();
    StringBuilder tab = new StringBuilder("sample\tEMG uV\r\n");
    for (int k = 0; k < 80; k++) {
      double value = (k % 17 - 8) * 1.25;
      comma.append(String.format(Locale.ROOT, "%.5f,%.2f,%d%n", k / 4000.0, value, k % 5));
      semicolon.append(String.format(Locale.GERMANY, "%.5f;%.2f%n", k / 4000.0, value));
      blank.append(String.format(Locale.ROOT, "%10.4f %8.1e%n", k / 1000.0, value));
      tab.append(k < 40 ? k : k + 9).append('\t').append(value).append("\r\n");
    }
    for (CharSequence one : List.of(comma, semicolon, blank, tab)) {
      seeds.add(one.toString().getBytes(StandardCharsets.UTF_8));
    }
    seeds.add(("\uFEFF" + comma).getBytes(StandardCharsets.UTF_16LE));
    seeds.add((comma + "\u00b5").getBytes(StandardCharsets.ISO_8859_1));
  }

  private static void wfdb(List<byte[]> seeds) {
    byte[] notes = WfdbFile.annotation(22, 0, "## time resolution: 1000");
    for (int format : new int[] {8, 16, 24, 32, 61, 80, 160, 212, 310, 311}) {
      int[] values = format == 8 ? WfdbFile.differences(300) : WfdbFile.interleaved(3, 100);
      String two = "r.dat " + format + (format == 8 ? "" : "x2") + " 200(0)/mV 12 0 0 0 0 EMG 1";
      String one = "r.dat " + format + " 8.19(1)/uV 0 0 5 77 0 EMG 2";
      seeds.add(
          WfdbBundle.pack(
              List.of("r 2 48828.125 100 10:20:30 24/11/2026\n" + two + "\n" + one + "\n# note\n"),
              notes,
              WfdbFile.encode(format, values)));
    }
    byte[] missing = WfdbFile.encode(16, 1, -32_768, 3, 4, 5, -32_768, -32_768, 8);
    seeds.add(WfdbBundle.pack(List.of("r 1\nr.dat 16:1+2\n"), new byte[0], missing));
    String first = "p1 1 1000 4\nr.dat 16 200/mV 16 0 0 0 0 A\n";
    String second = "p2 2 1000 2\ns.dat 16x2 200/mV 16 0 0 0 0 A\ns.dat 16 1/uV 8 0 0 0 0 B\n";
    String third = second.replace("16x2", "16").replace("p2", "p3");
    String layout = "p1 2 1000 0\n~ 0 200/mV 0 0 0 0 0 A\n~ 0 1/uV 0 0 0 0 0 B\n";
    seeds.add(
        WfdbBundle.pack(
            List.of("r/3 1 1000 12\np1 4\n~ 5\np2 3\n", first, second), notes, missing));
    seeds.add(
        WfdbBundle.pack(
            List.of("r/4 2 1000 12\np1 0\np2 2\n~ 5\np3 4\n", layout, second, third),
            WfdbFile.annotation(1, 70_000, "site 1"),
            missing));
  }

  private static void wav(List<byte[]> seeds) {
    for (String form : List.of("RIFF", "RIFX", "RF64")) {
      for (int bytes : new int[] {1, 2, 3, 4, 8}) {
        WavFile file = WavFile.of(form);
        byte[] data = file.integers(bytes, 1, -2, 3, -4, 100, -128, 127, 5);
        if (form.equals("RF64")) {
          file.sizes(data.length);
        }
        file.format(1, 2, 48_000, 8 * bytes).chunk("LIST", new byte[5]);
        seeds.add(
            file.chunk("data", form.equals("RF64") ? 0xFFFF_FFFFL : data.length, data).bytes());
      }
      WavFile file = WavFile.of(form).extensible(3, 1, 44_100, 32, 32);
      seeds.add(file.chunk("data", file.floats(4, 30, k -> k == 9 ? Double.NaN : k)).bytes());
    }
    seeds.add(WavFile.of("RIFF").format(7, 1, 8000, 8).chunk("data", new byte[20]).bytes());
  }

  private static void mat(List<byte[]> seeds) throws IOException {
    MatlabType[] types = {
      MatlabType.Double, MatlabType.Single, MatlabType.Int8, MatlabType.UInt16, MatlabType.Int32
    };
    for (MatlabType type : types) {
      for (ByteOrder order : List.of(ByteOrder.LITTLE_ENDIAN, ByteOrder.BIG_ENDIAN)) {
        Matrix matrix =
            type == MatlabType.Int8
                ? Mat5.newMatrix(2, 30, type)
                : Mat5.newMatrix(40, type == MatlabType.Double ? 2 : 1, type);
        for (int k = 0; k < matrix.getNumElements(); k++) {
          matrix.setDouble(k, type == MatlabType.Single ? k * 0.37 : k % 101);
        }
        int level = order == ByteOrder.BIG_ENDIAN ? 6 : 0;
        seeds.add(mat(order, level, Mat5.newMatFile().addArray("emg", matrix)));
      }
    }
    Matrix inside = Mat5.newMatrix(1, 25, MatlabType.Int16);
    MatFile several =
        Mat5.newMatFile()
            .addArray("fs", Mat5.newScalar(48_828.125))
            .addArray("note", Mat5.newString("invented"))
            .addArray("cells", Mat5.newCell(1, 2).set(0, Mat5.newComplex(2, 3)))
            .addArray("logical", Mat5.newLogical(2, 2))
            .addArray("data", Mat5.newStruct().set("needle", inside));
    seeds.add(mat(ByteOrder.LITTLE_ENDIAN, 0, several));
    seeds.add(mat(ByteOrder.LITTLE_ENDIAN, 9, several));
  }

  private static byte[] mat(ByteOrder order, int deflateLevel, MatFile file) throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate((int) MOST_BYTES).order(order);
    try (Sink sink = Sinks.wrap(buffer)) {
      Mat5.newWriter(sink).setDeflateLevel(deflateLevel).writeMat(file);
    }
    return Arrays.copyOf(buffer.array(), buffer.position());
  }

  private static void raw(List<byte[]> seeds) {
    byte[] numbers = new byte[240];
    new Random(5).nextBytes(numbers);
    for (int type = 0; type < 14; type++) {
      for (int channels = 1; channels <= 3; channels++) {
        seeds.add(RawBundle.pack(type, channels, 0, numbers));
      }
      seeds.add(RawBundle.pack(type, 1, 40, numbers));
    }
    double[] values = {1, Double.NaN, -2, Double.NEGATIVE_INFINITY, 3, 4};
    ByteBuffer real = ByteBuffer.allocate(48).order(ByteOrder.LITTLE_ENDIAN);
    for (double value : values) {
      real.putDouble(value);
    }
    seeds.add(RawBundle.pack(12, 2, 0, real.array()));
  }

  private static void sweeps(List<byte[]> seeds) {
    for (String between : List.of(",", ";", "\t", " ")) {
      StringBuilder rows = new StringBuilder(between.equals(",") ? "cut,s1,s2\n" : "");
      StringBuilder comma = new StringBuilder();
      for (int r = 0; r < 6; r++) {
        rows.append(r * 0.1);
        comma.append("0,").append(r);
        for (int k = 0; k < 8 + r % 2; k++) {
          rows.append(between).append((k * 7 + r) % 11 - 5.5);
          comma.append(between.equals(",") ? ";" : between).append("1,").append(k);
        }
        rows.append(r % 2 == 0 ? "\n" : "\r\n");
        comma.append('\n');
      }
      seeds.add(rows.toString().getBytes(StandardCharsets.UTF_8));
      seeds.add(comma.toString().getBytes(StandardCharsets.ISO_8859_1));
    }
  }

  private static void intervals(List<byte[]> seeds) {
    for (String list :
        List.of(
            "interval\n812.5\n-\n798\n\n# note\n 801.25\n",
            "0.10 812.5\r\n0.21\tblock\r\n0.35;799.1\r\n",
            "time;interval\n0,10;812,5\n0,21;blocked\n0,35;799,1\n",
            "1,812\n2.5,799.5\n4.0,-\n",
            "\uFEFF812\n799\n",
            "1e3\n+5\n-7\n")) {
      seeds.add(list.getBytes(StandardCharsets.UTF_8));
      seeds.add((list + " ").getBytes(StandardCharsets.UTF_16LE));
    }
  }
}
