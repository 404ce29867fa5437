package org.lonefibre.workbench.importing;

import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.store.Store;
import org.lonefibre.store.recordings.KeptRecording;

/**
 * What was read of a file before it is imported.
 *
 * @param sha256 its hash
 * @param fileName name it had
 * @param format format as read; null if it was refused
 * @param signals its signals
 * @param findings what was noticed
 * @param refusal why it cannot be read; null if it can
 * @param studies titles of studies that hold the same bytes already
 */
record Preview(
    String sha256,
    String fileName,
    @Nullable String format,
    List<Signal> signals,
    List<Finding> findings,
    @Nullable String refusal,
    List<String> studies) {

  /** A signal of the file. */
  record Signal(int number, String label, String unit, double samplingRateHz, double durationS) {}

  static Preview of(Store store, KeptRecording kept, String fileName) throws IOException {
    List<String> studies = store.studies().listTitlesWith(kept.sha256());
    try (Recording recording = RecordingReaders.open(store.file(kept), ReadOptions.defaults())) {
      return new Preview(
          kept.sha256(),
          fileName,
          recording.format(),
          recording.channels().stream().map(Preview::signal).toList(),
          recording.findings(),
          null,
          studies);
    } catch (RecordingFormatException e) {
      return new Preview(
          kept.sha256(),
          fileName,
          null,
          List.of(),
          List.of(),
          e.place() + ": " + e.reason(),
          studies);
    }
  }

  private static Signal signal(Channel channel) {
    return new Signal(
        channel.number(),
        channel.label(),
        channel.unit(),
        channel.timeBase().samplingRateHz(),
        channel.durationS());
  }
}
