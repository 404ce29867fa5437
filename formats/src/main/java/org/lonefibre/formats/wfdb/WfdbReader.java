package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.nio.file.Path;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Recording;

/**
 * Reads WFDB records by their header, in one part or several, with the annotations beside it.
 *
 * <ul>
 *   <li>The header names the files of samples; they lie in its folder.
 *   <li>Opening goes once through all samples: it finds missing ones and checks the sums.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class WfdbReader implements RecordingReader {

  @Override
  public boolean recognises(byte[] head) {
    return WfdbHeader.isHeader(head);
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    return new WfdbRecording(WfdbHeader.read(file), new WfdbFolder(file), options);
  }
}
