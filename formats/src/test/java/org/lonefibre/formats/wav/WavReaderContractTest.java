package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;

class WavReaderContractTest extends RecordingReaderContract {

  @Override
  protected RecordingReader reader() {
    return new WavReader();
  }

  /** A WAV file holds whole rates only; the fraction has to be told. */
  @Override
  protected ReadOptions options() {
    return ReadOptions.defaults().withSamplingRateHz(48_828.125);
  }

  private static WavFile floats(int count, boolean isBroken) {
    WavFile file = WavFile.of("RIFF").format(3, 2, 48_828, 32);
    return file.chunk(
        "data",
        file.floats(
            4, 2 * count, k -> isBroken && k >= 3_000 && k < 4_000 ? Double.NaN : Math.sin(k)));
  }

  @Override
  protected Path ordinaryFile() throws IOException {
    return floats(12_000, false).write(folder, "o.wav");
  }

  @Override
  protected Path fileWithGaps() throws IOException {
    return floats(5_000, true).write(folder, "g.wav");
  }

  @Override
  protected @Nullable Path fileWithHostileLabel() {
    return null;
  }

  @Override
  protected Path fileWithoutUnit() throws IOException {
    return floats(100, false).write(folder, "u.wav");
  }

  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    return WavFile.of("RF64")
        .sizes(1L << 50)
        .format(1, 1, 48_828, 16)
        .chunk("data", 0xFFFF_FFFFL, new byte[10])
        .write(folder, "m.wav");
  }
}
