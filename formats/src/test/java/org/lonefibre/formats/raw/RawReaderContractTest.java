package org.lonefibre.formats.raw;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.RecordingReaderContract;
import org.lonefibre.signal.recording.Recording;

class RawReaderContractTest extends RecordingReaderContract {

  private static final RawLayout FLOATS =
      new RawLayout(RawLayout.Type.FLOAT32, ByteOrder.LITTLE_ENDIAN, 2, 8);

  private Path write(String name, int frames, boolean gaps) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(8 + 8 * frames).order(ByteOrder.LITTLE_ENDIAN);
    bytes.putLong(7);
    for (int k = 0; k < frames; k++) {
      boolean missing = gaps && k >= 3000 && k < 3100;
      bytes.putFloat(missing ? Float.NaN : k % 701 - 350.5f);
      bytes.putFloat(missing ? Float.POSITIVE_INFINITY : (k % 333) * 0.5f);
    }
    return Files.write(folder.resolve(name), bytes.array());
  }

  @Override
  protected RecordingReader reader() {
    return new RawReader();
  }

  @Override
  protected ReadOptions options() {
    return new ReadOptions(48_828.125, null).withRaw(FLOATS);
  }

  @Override
  protected boolean isToldByContent() {
    return false;
  }

  @Override
  protected Path ordinaryFile() throws IOException {
    return write("o.raw", 12_000, false);
  }

  @Override
  protected Path fileWithGaps() throws IOException {
    return write("g.raw", 12_000, true);
  }

  @Override
  protected @Nullable Path fileWithHostileLabel() {
    return null;
  }

  @Override
  protected Path fileWithoutUnit() throws IOException {
    return ordinaryFile();
  }

  @Override
  protected Path fileThatClaimsMuch() throws IOException {
    return write("m.raw", 1, false);
  }

  @ParameterizedTest
  @EnumSource(RawLayout.Type.class)
  void everyKindOfNumberIsReadInBothOrders(RawLayout.Type type) throws IOException {
    long[] values = {0, 1, -1, 100, -128, 127};
    for (ByteOrder order : new ByteOrder[] {ByteOrder.LITTLE_ENDIAN, ByteOrder.BIG_ENDIAN}) {
      ByteBuffer bytes = ByteBuffer.allocate(3 + values.length * type.bytes()).order(order);
      bytes.position(3);
      for (long value : values) {
        switch (type) {
          case INT8 -> bytes.put((byte) value);
          case INT16 -> bytes.putShort((short) value);
          case INT24 -> {
            byte[] three = {(byte) (value >> 16), (byte) (value >> 8), (byte) value};
            for (int b = 0; b < 3; b++) {
              bytes.put(order == ByteOrder.BIG_ENDIAN ? three[b] : three[2 - b]);
            }
          }
          case INT32 -> bytes.putInt((int) value);
          case INT64 -> bytes.putLong(value);
          case FLOAT32 -> bytes.putFloat(value);
          case FLOAT64 -> bytes.putDouble(value);
        }
      }
      Path file = Files.write(folder.resolve("k.raw"), bytes.array());
      ReadOptions told = new ReadOptions(20_000.0, 0.5).withRaw(new RawLayout(type, order, 1, 3));
      try (Recording recording = reader().open(file, told)) {
        double[] samples = new double[values.length];
        recording.read(recording.channels().get(0), 0, samples, 0, samples.length);
        assertThat(samples).containsExactly(0, 0.5, -0.5, 50, -64, 63.5);
      }
    }
  }

  @Test
  void bytesThatDoNotFillAFrameSayThatTheLayoutIsAnother() throws IOException {
    Path file = Files.write(folder.resolve("x.raw"), new byte[8 + 8 * 100 + 3]);
    assertThatThrownBy(() -> reader().open(file, options()))
        .hasMessageStartingWith("x.raw: byte 8 to the end")
        .hasMessageContaining("--raw-channels");
  }

  @Test
  void nothingIsAssumed() throws IOException {
    Path file = ordinaryFile();
    assertThatThrownBy(() -> reader().open(file, ReadOptions.defaults().withRaw(FLOATS)))
        .hasMessageContaining("no rate");
    assertThatThrownBy(() -> RawLayout.of("int16", 1, 0)).hasMessageContaining("int16le");
    assertThat(RawLayout.of("int16be", 2, 4))
        .isEqualTo(new RawLayout(RawLayout.Type.INT16, ByteOrder.BIG_ENDIAN, 2, 4));
  }
}
