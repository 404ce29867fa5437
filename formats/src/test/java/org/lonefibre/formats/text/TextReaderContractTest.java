package org.lonefibre.formats.text;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;

class TextReaderContractTest extends RecordingReaderContract {

  private static String rows(String header, double[] starts, int each) {
    StringBuilder text = new StringBuilder(header);
    for (double start : starts) {
      for (int k = 0; k < each; k++) {
        text.append(
            String.format(
                Locale.ROOT,
                "%.9f,%d.5,%.3f%n",
                start + k * 8 / 390_625.0,
                k % 701 - 350,
                (k % 333) * 0.001));
      }
    }
    return text.toString();
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  @Override
  protected RecordingReader reader() {
    return new TextReader();
  }

  @Override
  protected Path ordinaryFile() throws IOException {
    return write("o.csv", rows("time (s),EMG (uV),EMG 2 (mV)\n", new double[] {0}, 12_000));
  }

  @Override
  protected Path fileWithGaps() throws IOException {
    return write("g.csv", rows("time (s),EMG (uV),EMG 2 (mV)\n", new double[] {0, 2, 7}, 4_000));
  }

  @Override
  protected Path fileWithHostileLabel() throws IOException {
    return write("h.csv", rows("time (s)," + HOSTILE + ",B\n", new double[] {0}, 100));
  }

  @Override
  protected Path fileWithoutUnit() throws IOException {
    return write("u.csv", rows("time (s),EMG,B\n", new double[] {0}, 100));
  }

  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    return write("m.csv", "time,EMG\n0,\"" + "9".repeat(5_000_000) + "\n");
  }
}
