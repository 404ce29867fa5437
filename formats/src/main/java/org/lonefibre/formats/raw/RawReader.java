package org.lonefibre.formats.raw;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.SourceRecording;
import org.lonefibre.formats.reader.SourceRecording.Input;
import org.lonefibre.formats.reader.SourceRecording.WholeRange;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Reads a file of bare numbers whose layout a person tells; read by position, whatever its size.
 *
 * <ul>
 *   <li>Nothing in such a file tells it from another, so it is never recognised by its content:
 *       {@link ReadOptions#raw()} decides.
 *   <li>Bytes that do not fill a number of every channel are refused: they say that the layout is
 *       another one.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class RawReader implements RecordingReader {

  @Override
  public boolean recognises(byte[] head) {
    return false;
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    String name = String.valueOf(file.getFileName());
    RawLayout layout = options.raw();
    Double rateHz = options.samplingRateHz();
    if (layout == null || rateHz == null) {
      throw new RecordingFormatException(
          name,
          "the file",
          "to be told its layout and its rate",
          layout == null ? "no layout" : "no rate",
          "give --raw, --raw-channels, --raw-offset-bytes and --sampling-rate-hz");
    }
    FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
    try {
      long bytes = channel.size() - layout.offsetBytes();
      if (bytes < layout.frameBytes() || bytes % layout.frameBytes() != 0) {
        throw new RecordingFormatException(
            name,
            "byte " + layout.offsetBytes() + " to the end",
            "a whole number of "
                + layout.frameBytes()
                + " bytes ("
                + layout.channels()
                + " of "
                + layout.type().bytes()
                + ")",
            Math.max(0, bytes) + " bytes",
            "check --raw, --raw-channels and --raw-offset-bytes");
      }
      long frames = bytes / layout.frameBytes();
      List<Input> inputs = new ArrayList<>();
      for (int c = 0; c < layout.channels(); c++) {
        inputs.add(
            new Input(
                "channel " + (c + 1),
                "",
                new RawSource(name, channel, layout, c, frames),
                1,
                0,
                range(layout.type())));
      }
      return new SourceRecording(
          name,
          "raw",
          TimeBase.ofHz(rateHz),
          List.of(new Segment(0, frames, 0)),
          inputs,
          List.of(),
          options,
          null,
          channel);
    } catch (IOException | RuntimeException e) {
      channel.close();
      throw e;
    }
  }

  private static @Nullable WholeRange range(RawLayout.Type type) {
    if (!type.isWhole()) {
      return null;
    }
    double half = Math.pow(2, 8 * type.bytes() - 1);
    return new WholeRange(-half, half - 1);
  }
}
