package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;
import us.hebi.matlab.mat.format.Mat5;
import us.hebi.matlab.mat.types.MatFile;
import us.hebi.matlab.mat.types.Matrix;

class MatReaderContractTest extends RecordingReaderContract {

  private Path write(String file, String variable, int columns, boolean gaps) throws IOException {
    Matrix matrix = Mat5.newMatrix(12_000, columns);
    for (int k = 0; k < 12_000; k++) {
      for (int c = 0; c < columns; c++) {
        boolean missing = gaps && k >= 3000 && k < 3100;
        matrix.setDouble(k, c, missing ? Double.NaN : c == 0 ? k % 701 - 350.5 : (k % 333) * 0.001);
      }
    }
    Path path = folder.resolve(file);
    try (MatFile mat = Mat5.newMatFile().addArray(variable, matrix)) {
      Mat5.writeToFile(mat, path.toFile());
    }
    return path;
  }

  @Override
  protected RecordingReader reader() {
    return new MatReader();
  }

  @Override
  protected ReadOptions options() {
    return new ReadOptions(48_828.125, null);
  }

  @Override
  protected Path ordinaryFile() throws IOException {
    return write("o.mat", "emg", 2, false);
  }

  @Override
  protected Path fileWithGaps() throws IOException {
    return write("g.mat", "emg", 2, true);
  }

  @Override
  protected Path fileWithHostileLabel() throws IOException {
    return write("h.mat", HOSTILE, 1, false);
  }

  @Override
  protected Path fileWithoutUnit() throws IOException {
    return write("u.mat", "emg", 1, false);
  }

  /** An array of 2 to the power of 30 numbers in a few bytes. */
  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    byte[] head = Arrays.copyOf(Files.readAllBytes(ordinaryFile()), 128);
    ByteBuffer bytes = ByteBuffer.allocate(128 + 72).order(ByteOrder.nativeOrder());
    bytes.put(head);
    bytes.putInt(14).putInt(0x7FFF_FFF0);
    bytes.putInt(6).putInt(8).putInt(6).putInt(0);
    bytes.putInt(5).putInt(8).putInt(1 << 30).putInt(1);
    bytes.putInt(1).putInt(8).putLong(0x656d67);
    bytes.putInt(9).putInt(0x7FFF_FF00);
    return Files.write(folder.resolve("m.mat"), bytes.array());
  }
}
