package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;

class WfdbReaderContractTest extends RecordingReaderContract {

  private static final String RATE = "48828.125";

  @Override
  protected RecordingReader reader() {
    return new WfdbReader();
  }

  @Override
  protected Path ordinaryFile() throws IOException {
    WfdbFile.samples(folder, "o.dat", 212, WfdbFile.interleaved(2, 70_001));
    WfdbFile.samples(folder, "o8.dat", 8, WfdbFile.differences(70_001));
    return WfdbFile.header(
        folder,
        "o.hea",
        "o 3 " + RATE + " 70001 10:20:30 24/11/2026",
        "o.dat 212 200(0)/mV 12 0 0 0 0 EMG 1",
        "o.dat 212 8.19(1)/uV 12 0 0 0 0 EMG 2",
        "o8.dat 8 200/mV 12 0 -5 0 0 EMG 3");
  }

  @Override
  protected Path fileWithGaps() throws IOException {
    for (int part = 1; part <= 2; part++) {
      WfdbFile.samples(folder, "g" + part + ".dat", 16, WfdbFile.interleaved(2, 5_000));
      WfdbFile.header(
          folder,
          "g" + part + ".hea",
          "g" + part + " 2 " + RATE + " 5000",
          "g" + part + ".dat 16 200/mV 16 0 0 0 0 EMG 1",
          "g" + part + ".dat 16 200/mV 16 0 0 0 0 EMG 2");
    }
    return WfdbFile.header(
        folder, "g.hea", "g/3 2 " + RATE + " 17000", "g1 5000", "~ 7000", "g2 5000");
  }

  @Override
  protected Path fileWithHostileLabel() throws IOException {
    WfdbFile.samples(folder, "h.dat", 16, WfdbFile.interleaved(1, 100));
    return WfdbFile.header(
        folder, "h.hea", "h 1 " + RATE + " 100", "h.dat 16 200/mV 16 0 0 0 0 " + HOSTILE);
  }

  @Override
  protected Path fileWithoutUnit() throws IOException {
    WfdbFile.samples(folder, "u.dat", 16, WfdbFile.interleaved(1, 100));
    return WfdbFile.header(folder, "u.hea", "u 1 " + RATE + " 100", "u.dat 16");
  }

  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    Files.write(folder.resolve("m.dat"), new byte[10]);
    return WfdbFile.header(
        folder, "m.hea", "m 1 " + RATE + " 274877906944", "m.dat 16 200/mV 16 0 0 0 0 EMG");
  }
}
