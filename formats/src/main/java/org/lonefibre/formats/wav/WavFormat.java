package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Locale;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * How samples are written.
 *
 * @param isFloat whether they are floating-point numbers
 * @param channels samples in a frame
 * @param rateHz frames in a second
 * @param sampleBytes bytes of one sample
 * @param bits bits that count, at the upper end of these bytes
 * @param statedBytesPerSecond what the file says beside the rate
 */
record WavFormat(
    boolean isFloat,
    int channels,
    long rateHz,
    int sampleBytes,
    int bits,
    long statedBytesPerSecond) {

  static final int LEAST_BYTES = 16;
  private static final int EXTENSIBLE_BYTES = 40;
  private static final int PCM = 1;
  private static final int FLOAT = 3;
  private static final int EXTENSIBLE = 0xFFFE;
  private static final int MOST_CHANNELS = 4096;

  /** The rest of an identifier whose beginning is a format code. */
  private static final byte[] CODE_TAIL = {
    (byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38, (byte) 0x9B, 0x71
  };

  int frameBytes() {
    return channels * sampleBytes;
  }

  static WavFormat read(WavBytes bytes, WavChunks.Chunk chunk) throws IOException {
    long at = chunk.start();
    ByteBuffer fields = bytes.read(at, (int) Math.min(chunk.size(), EXTENSIBLE_BYTES));
    int code = Short.toUnsignedInt(fields.getShort(0));
    int channels = Short.toUnsignedInt(fields.getShort(2));
    long rate = Integer.toUnsignedLong(fields.getInt(4));
    long bytesPerSecond = Integer.toUnsignedLong(fields.getInt(8));
    int frame = Short.toUnsignedInt(fields.getShort(12));
    int width = Short.toUnsignedInt(fields.getShort(14));
    int bits = width;
    if (code == EXTENSIBLE) {
      if (fields.limit() < EXTENSIBLE_BYTES) {
        throw bytes.fault(at, "format chunk", "40 bytes", Integer.toString(fields.limit()));
      }
      int valid = Short.toUnsignedInt(fields.getShort(18));
      bits = valid > 0 && valid <= width ? valid : width;
      code = subFormat(bytes, at, fields);
    }
    if (code != PCM && code != FLOAT) {
      throw lossy(bytes, at, code);
    }
    if (channels < 1 || channels > MOST_CHANNELS) {
      throw bytes.fault(
          at + 2, "number of channels", "1 to " + MOST_CHANNELS, Integer.toString(channels));
    }
    if (rate < 1 || rate > 1_000_000_000) {
      throw bytes.fault(at + 4, "sampling rate", "1 to 1e9 Hz", Long.toString(rate));
    }
    int sampleBytes = frame / channels;
    boolean isFloat = code == FLOAT;
    boolean isPlain = isFloat ? width == 32 || width == 64 : width >= 1 && width <= 64;
    if (!isPlain) {
      throw bytes.fault(
          at + 14, "bits of a sample", isFloat ? "32 or 64" : "1 to 64", Integer.toString(width));
    }
    boolean fits = isFloat ? sampleBytes * 8 == width : sampleBytes * 8 >= width;
    if (frame % channels != 0 || sampleBytes > 8 || !fits) {
      throw bytes.fault(
          at + 12,
          "bytes of a frame",
          channels * ((width + 7) / 8)
              + ", for "
              + channels
              + (channels == 1 ? " channel of " : " channels of ")
              + width
              + " bits",
          Integer.toString(frame));
    }
    return new WavFormat(isFloat, channels, rate, sampleBytes, bits, bytesPerSecond);
  }

  private static int subFormat(WavBytes bytes, long at, ByteBuffer fields) throws IOException {
    long code = Integer.toUnsignedLong(fields.getInt(24));
    boolean isCode = code < 0x1_0000 && fields.getShort(28) == 0 && fields.getShort(30) == 0x10;
    for (int k = 0; k < CODE_TAIL.length; k++) {
      isCode &= fields.get(32 + k) == CODE_TAIL[k];
    }
    if (!isCode) {
      throw bytes.fault(
          at + 24, "kind of samples", "integers or floating-point numbers", "an unknown kind");
    }
    return (int) code;
  }

  private static RecordingFormatException lossy(WavBytes bytes, long at, int code) {
    String name =
        switch (code) {
          case 0x02,
              0x03E,
              0x10,
              0x11,
              0x12,
              0x13,
              0x14,
              0x15,
              0x16,
              0x17,
              0x20,
              0x36,
              0x45,
              0x200 ->
              "ADPCM";
          case 0x06 -> "A-law";
          case 0x07 -> "mu-law";
          case 0x31 -> "GSM";
          case 0x50 -> "MPEG";
          case 0x55 -> "MP3";
          case 0xFF, 0x1600, 0x1610 -> "AAC";
          case 0x160, 0x161, 0x162 -> "Windows Media";
          case 0x674F, 0x6750, 0x6751, 0x676F, 0x6770, 0x6771 -> "Vorbis";
          default -> "another";
        };
    return new RecordingFormatException(
        bytes.file,
        "byte " + at + ", coding of the samples",
        "plain integers or floating-point numbers",
        name + " coding (code " + String.format(Locale.ROOT, "0x%04x", code) + ")",
        "record without compression: a coding that loses detail moves and reshapes potentials, so"
            + " their jitter would be that of the coding");
  }
}
