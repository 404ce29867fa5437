package org.lonefibre.app.recording;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.SiteCutter;
import org.lonefibre.formats.writer.EdfPlusWriter;
import org.lonefibre.signal.recording.Recording;

/** Opens and writes recordings with what the user said of them. Thread rule: safe. */
public final class RecordingDoor {

  /** Invented recordings have no date of their own; one is needed in the header. */
  private static final LocalDateTime NO_DATE = LocalDateTime.of(2000, 1, 1, 0, 0);

  private final ReadOptions options;

  private RecordingDoor(ReadOptions options) {
    this.options = options;
  }

  /** A door that opens files with what was said. */
  public static RecordingDoor of(ReadOptions options) {
    return new RecordingDoor(options);
  }

  /** A door for files that say everything themselves. */
  public static RecordingDoor plain() {
    return new RecordingDoor(ReadOptions.defaults());
  }

  /** Opens a recording of any format that is read. */
  public Recording open(Path path) throws IOException {
    return RecordingReaders.open(path, options);
  }

  /** The sites that annotations start, in order of time; empty if none does. */
  public List<SiteCutter.SiteStretch> listSites(Recording recording) {
    return SiteCutter.listSites(recording.annotations());
  }

  /** Times of the stimuli that annotations name. */
  public List<Double> listStimulusTimesS(Recording recording) {
    return SiteCutter.listStimuliS(recording.annotations());
  }

  /** Writes a recording as EDF+. */
  public static void write(Recording recording, String subject, Path path) throws IOException {
    EdfPlusWriter.write(recording, subject, recording.findStart().orElse(NO_DATE), path);
  }
}
