package org.lonefibre.formats;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import org.lonefibre.formats.edf.EdfReader;
import org.lonefibre.formats.hdf.HdfReader;
import org.lonefibre.formats.mat.MatReader;
import org.lonefibre.formats.raw.RawReader;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.SampleRange;
import org.lonefibre.formats.text.TextReader;
import org.lonefibre.formats.wav.WavReader;
import org.lonefibre.formats.wfdb.WfdbReader;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Opens a recording of any format that is read; the content decides, not the name.
 *
 * <ul>
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class RecordingReaders {

  private static final List<RecordingReader> READERS =
      List.of(
          new EdfReader(),
          new WavReader(),
          new WfdbReader(),
          new HdfReader(),
          new MatReader(),
          new TextReader());

  private RecordingReaders() {}

  /**
   * Opens a file.
   *
   * @throws RecordingFormatException if it is not a recording that can be read; the message says
   *     what it looks like
   */
  public static Recording open(Path file, ReadOptions options) throws IOException {
    String name = String.valueOf(file.getFileName());
    if (!Files.exists(file)) {
      throw new RecordingFormatException(
          file.toString(), "the file", "a file", "nothing of that name", "check the path");
    }
    if (!Files.isRegularFile(file) || !Files.isReadable(file)) {
      throw new RecordingFormatException(
          file.toString(),
          "the file",
          "a readable file",
          Files.isDirectory(file) ? "a folder" : "something that cannot be read",
          "name the recordings themselves");
    }
    if (options.raw() != null) {
      return new RawReader().open(file, options);
    }
    byte[] head = head(file);
    try {
      for (RecordingReader reader : READERS) {
        if (reader.recognises(head)) {
          return plausible(name, reader.open(file, options));
        }
      }
    } catch (NoSuchFileException e) {
      throw new RecordingFormatException(
          name, "the file", "a file", "nothing of that name", "check the path");
    }
    FileKind kind = FileKind.of(head);
    throw new RecordingFormatException(
        name,
        "byte 0",
        "EDF, EDF+, BDF, BDF+, WAV, the header of a WFDB record, HDF5, NWB, MATLAB or delimited"
            + " text",
        kind.name(),
        WfdbReader.findHeader(file)
            .map(header -> "name the header of the record, " + header.getFileName())
            .orElse(kind.advice()));
  }

  /** Refuses ranges of which no further step can take the square. */
  private static Recording plausible(String name, Recording recording) throws IOException {
    for (Channel channel : recording.channels()) {
      Double low = channel.lowRailUv();
      Double high = channel.highRailUv();
      if (low != null && !SampleRange.holds(low) || high != null && !SampleRange.holds(high)) {
        recording.close();
        throw new RecordingFormatException(
            name,
            "range of channel " + channel.number(),
            "at most " + SampleRange.LARGEST + " uV",
            low + " to " + high,
            "mend the gain in the header");
      }
    }
    return recording;
  }

  private static byte[] head(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(RecordingReader.HEAD_BYTES);
    }
  }
}
