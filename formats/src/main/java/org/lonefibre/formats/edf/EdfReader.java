package org.lonefibre.formats.edf;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Recording;

/** Reads EDF, EDF+C, EDF+D, BDF, BDF+C and BDF+D. */
public final class EdfReader implements RecordingReader {

  @Override
  public boolean recognises(byte[] head) {
    if (head.length < 8) {
      return false;
    }
    if (head[0] == (byte) 0xFF
        && new String(head, 1, 7, StandardCharsets.US_ASCII).equals("BIOSEMI")) {
      return true;
    }
    String text = new String(head, StandardCharsets.ISO_8859_1);
    return text.startsWith("0       ") && !isTable(text);
  }

  /** A table in columns of fixed width can begin like EDF, but soon comes to the end of a line. */
  private static boolean isTable(String text) {
    String start = text.substring(0, Math.min(text.length(), EdfHeader.FIXED_BYTES));
    int line = start.indexOf('\n');
    return line >= 0 && start.substring(0, line).strip().matches("[0-9eE+.,;\\s-]+");
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
    try {
      String name = String.valueOf(file.getFileName());
      return new EdfRecording(EdfHeader.read(name, channel), channel, options);
    } catch (IOException | RuntimeException e) {
      channel.close();
      throw e;
    }
  }
}
