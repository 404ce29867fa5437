package org.lonefibre.app.recording;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.SignalSites;
import org.lonefibre.formats.reader.SiteCutter;
import org.lonefibre.formats.writer.EdfPlusWriter;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/** Opens and writes recordings with what the user said of them. Thread rule: safe. */
public final class RecordingDoor {

  /** Invented recordings have no date of their own; one is needed in the header. */
  private static final LocalDateTime NO_DATE = LocalDateTime.of(2000, 1, 1, 0, 0);

  private final ReadOptions options;

  private final SiteBoundaries boundaries;

  private RecordingDoor(ReadOptions options, SiteBoundaries boundaries) {
    this.options = options;
    this.boundaries = boundaries;
  }

  /** A door that opens files with what was said. */
  public static RecordingDoor of(ReadOptions options, SiteBoundaries boundaries) {
    return new RecordingDoor(options, boundaries);
  }

  /** A door for files that say everything themselves. */
  public static RecordingDoor plain() {
    return new RecordingDoor(ReadOptions.defaults(), SiteBoundaries.ANNOTATIONS);
  }

  /** Opens a recording of any format that is read. */
  public Recording open(Path path) throws IOException {
    return RecordingReaders.open(path, options);
  }

  /**
   * The sites of a signal, in order of time: by its annotations, or from the signal itself where
   * that was asked for; empty if nothing divides it.
   */
  public List<SiteCutter.SiteStretch> listSites(Recording recording, Channel channel)
      throws IOException {
    return boundaries == SiteBoundaries.SIGNAL
        ? SignalSites.list(recording, channel)
        : SiteCutter.listSites(recording.annotations());
  }

  /** By what sites are divided. */
  public SiteBoundaries boundaries() {
    return boundaries;
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
