package org.lonefibre.formats.edf;

import java.io.IOException;
import java.nio.file.Path;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;

class EdfReaderContractTest extends RecordingReaderContract {

  /** 15,625 samples in 0.32 s are 48,828.125 Hz. */
  private static final int SAMPLES = 15_625;

  EdfFile blank() {
    return EdfFile.edf();
  }

  private EdfFile ordinary(String reserved) {
    return blank()
        .reserved(reserved)
        .duration("0.32")
        .records("", 5)
        .signal("EMG 1", "uV", SAMPLES)
        .signal("EMG 2", "mV", SAMPLES);
  }

  @Override
  protected RecordingReader reader() {
    return new EdfReader();
  }

  @Override
  protected Path ordinaryFile() throws IOException {
    return ordinary("").write(folder, "ordinary.edf");
  }

  @Override
  protected Path fileWithGaps() throws IOException {
    String[] starts = {"0", "0.32", "1.5", "1.82", "7"};
    return ordinary(isBdf() ? "BDF+D" : "EDF+D")
        .annotations(r -> "+" + starts[r] + "\u0014\u0014\u0000")
        .write(folder, "gaps.edf");
  }

  boolean isBdf() {
    return false;
  }

  @Override
  protected Path fileWithHostileLabel() throws IOException {
    return blank().signal(HOSTILE, "uV", 100).write(folder, "hostile.edf");
  }

  @Override
  protected Path fileWithoutUnit() throws IOException {
    return blank().signal("EMG", "", 100).write(folder, "unit.edf");
  }

  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    return blank()
        .records("99999999", 0)
        .signal("EMG", "uV", 49_999_999)
        .tail(new byte[10])
        .write(folder, "much.edf");
  }
}
