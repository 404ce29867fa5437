package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Reads WAV of plain integers (8 to 64 bits, odd numbers of bits too) and floating-point numbers:
 * RIFF, RIFX, RF64 and BW64.
 *
 * <ul>
 *   <li>A WAV file has no unit: samples are numbers as stored until the gain is told.
 *   <li>What loses detail (A-law, mu-law, ADPCM, MP3) is refused: jitter would be that of the
 *       coding.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class WavReader implements RecordingReader {

  private static final int LEAST_BYTES = 12;

  @Override
  public boolean recognises(byte[] head) {
    if (head.length < LEAST_BYTES) {
      return false;
    }
    String form = text(head, 0);
    boolean isKnown =
        form.equals("RIFF") || form.equals("RIFX") || form.equals("RF64") || form.equals("BW64");
    return isKnown && text(head, 8).equals("WAVE");
  }

  private static String text(byte[] head, int at) {
    return new String(head, at, 4, StandardCharsets.ISO_8859_1);
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
    try {
      String name = String.valueOf(file.getFileName());
      ByteBuffer head = ByteBuffer.allocate(LEAST_BYTES);
      int read = 0;
      while (head.hasRemaining() && read >= 0) {
        read = channel.read(head, head.position());
      }
      if (head.hasRemaining() || !recognises(head.array())) {
        throw new RecordingFormatException(
            name, "byte 0", "a WAV file", "something else", "export the recording again");
      }
      String form = text(head.array(), 0);
      ByteOrder order = form.equals("RIFX") ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
      boolean is64Bit = form.equals("RF64") || form.equals("BW64");
      String shown = form.equals("RIFF") ? "WAV" : "WAV (" + form + ")";
      return new WavRecording(new WavBytes(name, channel, order), shown, is64Bit, options);
    } catch (IOException | RuntimeException e) {
      channel.close();
      throw e;
    }
  }
}
