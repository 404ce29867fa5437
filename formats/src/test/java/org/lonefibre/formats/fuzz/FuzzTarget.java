package org.lonefibre.formats.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.lonefibre.formats.edf.EdfReader;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.text.TextReader;
import org.lonefibre.formats.wav.WavReader;
import org.lonefibre.formats.wfdb.WfdbReader;

/**
 * A reader that is given broken files. Another reader joins by a constant here and seeds in {@link
 * FuzzSeeds}.
 */
enum FuzzTarget {
  EDF(new EdfReader()),
  TEXT(new TextReader()),
  WFDB(new WfdbReader()) {
    @Override
    Path lay(Path folder, byte[] input) throws IOException {
      return WfdbBundle.lay(folder, input);
    }
  },
  WAV(new WavReader());

  final RecordingReader reader;

  FuzzTarget(RecordingReader reader) {
    this.reader = reader;
  }

  /** What is told with half of the inputs, so that both ways are gone. */
  ReadOptions options(byte[] input) {
    boolean isTold = input.length % 2 == 1;
    return isTold
        ? ReadOptions.defaults().withSamplingRateHz(48_000).withGainUvPerUnit(0.5)
        : ReadOptions.defaults();
  }

  /** Writes an input as the files it stands for; gives the one to open. */
  Path lay(Path folder, byte[] input) throws IOException {
    return Files.write(folder.resolve("input"), input);
  }

  List<byte[]> seeds() throws IOException {
    return FuzzSeeds.list(this);
  }
}
