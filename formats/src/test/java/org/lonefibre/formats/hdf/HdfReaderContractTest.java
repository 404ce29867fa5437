package org.lonefibre.formats.hdf;

import io.jhdf.HdfFile;
import io.jhdf.WritableHdfFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;

class HdfReaderContractTest extends RecordingReaderContract {

  private Path write(String file, String variable, int columns, boolean gaps) {
    double[][] samples = new double[12_000][columns];
    for (int k = 0; k < samples.length; k++) {
      for (int c = 0; c < columns; c++) {
        boolean missing = gaps && k >= 3000 && k < 3100;
        samples[k][c] = missing ? Double.NaN : c == 0 ? k % 701 - 350.5 : (k % 333) * 0.001;
      }
    }
    Path path = folder.resolve(file);
    try (WritableHdfFile hdf = HdfFile.write(path)) {
      hdf.putDataset(variable, samples);
    }
    return path;
  }

  @Override
  protected RecordingReader reader() {
    return new HdfReader();
  }

  @Override
  protected ReadOptions options() {
    return new ReadOptions(48_828.125, null);
  }

  @Override
  protected Path ordinaryFile() {
    return write("o.h5", "emg", 2, false);
  }

  @Override
  protected Path fileWithGaps() {
    return write("g.h5", "emg", 2, true);
  }

  @Override
  protected Path fileWithHostileLabel() {
    return write("h.h5", HOSTILE, 1, false);
  }

  @Override
  protected Path fileWithoutUnit() {
    return write("u.h5", "emg", 1, false);
  }

  /** The file cut behind what describes it. */
  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    byte[] bytes = Files.readAllBytes(ordinaryFile());
    return Files.write(folder.resolve("m.h5"), java.util.Arrays.copyOf(bytes, 1200));
  }
}
