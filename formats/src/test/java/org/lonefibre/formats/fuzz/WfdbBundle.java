package org.lonefibre.formats.fuzz;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

/**
 * The files of a WFDB record in one row of bytes: two bytes length of the headers, two bytes length
 * of the annotations, headers (divided by form feeds: {@code r.hea}, {@code p1.hea}, {@code
 * p2.hea}), annotations, samples (in {@code r.dat} and {@code s.dat}).
 */
final class WfdbBundle {

  private static final int MOST_PARTS = 4;

  private WfdbBundle() {}

  static byte[] pack(List<String> headers, byte[] annotations, byte[] samples) {
    byte[] text = String.join("\f", headers).getBytes(StandardCharsets.ISO_8859_1);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (int length : new int[] {text.length, annotations.length}) {
      out.write(length);
      out.write(length >> 8);
    }
    out.writeBytes(text);
    out.writeBytes(annotations);
    out.writeBytes(samples);
    return out.toByteArray();
  }

  static Path lay(Path folder, byte[] input) throws IOException {
    int text = Math.min(word(input, 0), Math.max(0, input.length - 4));
    int notes = Math.min(word(input, 2), Math.max(0, input.length - 4 - text));
    int from = Math.min(4, input.length);
    String[] headers =
        new String(input, from, text, StandardCharsets.ISO_8859_1).split("\f", MOST_PARTS);
    for (int h = 0; h < MOST_PARTS; h++) {
      Path file = folder.resolve(h == 0 ? "r.hea" : "p" + h + ".hea");
      if (h < headers.length) {
        Files.write(file, headers[h].getBytes(StandardCharsets.ISO_8859_1));
        names(file, headers[h]);
      } else {
        Files.deleteIfExists(file);
      }
    }
    Path events = folder.resolve("r.atr");
    if (notes > 0) {
      Files.write(events, Arrays.copyOfRange(input, from + text, from + text + notes));
    } else {
      Files.deleteIfExists(events);
    }
    byte[] samples = Arrays.copyOfRange(input, from + text + notes, input.length);
    Files.write(folder.resolve("r.dat"), samples);
    Files.write(folder.resolve("s.dat"), samples);
    return folder.resolve("r.hea");
  }

  private static void names(Path header, String text) throws IOException {
    for (String name : text.split("\\s+", 1000)) {
      org.lonefibre.formats.wfdb.FolderProbe.check(header, name);
    }
  }

  private static int word(byte[] input, int at) {
    return at + 1 < input.length ? (input[at] & 0xFF) | (input[at + 1] & 0xFF) << 8 : 0;
  }
}
