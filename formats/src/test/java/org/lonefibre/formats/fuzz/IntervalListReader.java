package org.lonefibre.formats.fuzz;

import java.io.IOException;
import java.nio.file.Path;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.text.IntervalList;
import org.lonefibre.formats.writer.MadeRecording;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.TimeBase;

/** Shows a list of intervals as a recording, so that the same must hold of its numbers. */
final class IntervalListReader implements RecordingReader {

  @Override
  public boolean recognises(byte[] head) {
    return false;
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    boolean isTold = options.samplingRateHz() != null;
    IntervalList list =
        IntervalList.read(file, isTold ? IntervalList.Unit.MS : IntervalList.Unit.US);
    double[] intervalsUs =
        list.entries().stream()
            .mapToDouble(entry -> entry.intervalUs() == null ? 0 : entry.intervalUs())
            .toArray();
    MadeRecording made = new MadeRecording();
    made.channel("intervals", new TimeBase(1, 1), intervalsUs, null);
    for (IntervalList.Entry entry : list.entries()) {
      if (entry.timeS() != null) {
        made.annotate(entry.timeS(), "discharge");
      }
    }
    return made;
  }
}
