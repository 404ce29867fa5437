package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Where the format and the samples stand.
 *
 * <ul>
 *   <li>Unknown chunks are passed over; the size of the whole that the file declares is not used.
 *   <li>Samples that go on beyond the end of the file, or whose size was never written (0 or the
 *       largest number), end with it.
 *   <li>A chunk of odd size is padded, unless the next begins without.
 * </ul>
 */
final class WavChunks {

  private static final int HEAD_BYTES = 8;
  private static final int FIRST = 12;

  /** More chunks than this are no sound file; engineering choice. */
  private static final int MOST_CHUNKS = 100_000;

  private static final long UNKNOWN_SIZE = 0xFFFF_FFFFL;

  private final WavBytes bytes;
  private final boolean is64Bit;
  private long declared64 = -1;
  final List<Finding> findings = new ArrayList<>();

  /** The format chunk. */
  final Chunk format;

  /** The samples, as far as they are there. */
  final Chunk samples;

  /**
   * A chunk.
   *
   * @param start position of its content
   * @param size bytes of its content
   */
  record Chunk(long start, long size) {}

  /**
   * @param is64Bit whether sizes may stand in a chunk of their own (RF64)
   */
  WavChunks(WavBytes bytes, boolean is64Bit) throws IOException {
    this.bytes = bytes;
    this.is64Bit = is64Bit;
    Chunk foundFormat = null;
    Chunk foundSamples = null;
    long at = FIRST;
    int chunks = 0;
    while (bytes.size - at >= HEAD_BYTES && isName(at)) {
      if (++chunks > MOST_CHUNKS) {
        throw bytes.fault(at, "chunks", "at most " + MOST_CHUNKS + " chunks", "more");
      }
      ByteBuffer head = bytes.read(at, HEAD_BYTES);
      String name = name(head);
      long size = Integer.toUnsignedLong(head.getInt(4));
      long start = at + HEAD_BYTES;
      if (name.equals("data")) {
        Chunk own = samples(start, size);
        if (foundSamples == null) {
          foundSamples = own;
        } else {
          leftOut(own);
        }
        size = own.size();
      } else if (name.equals("fmt ") && foundFormat == null) {
        foundFormat = format(start, size);
      } else if (name.equals("ds64") && is64Bit && bytes.size - start >= 16) {
        declared64 = bytes.read(start + 8, 8).getLong(0);
      }
      at = next(start, size);
    }
    this.format = needed(foundFormat, at, "fmt");
    this.samples = needed(foundSamples, at, "data");
  }

  private Chunk needed(@Nullable Chunk chunk, long at, String name) throws IOException {
    if (chunk == null) {
      throw bytes.fault(
          Math.min(at, bytes.size),
          "chunks",
          "a chunk \"" + name + "\"",
          at >= bytes.size ? "the end of the file" : "none");
    }
    return chunk;
  }

  private Chunk format(long start, long size) throws IOException {
    long there = Math.min(size, bytes.size - start);
    if (there < WavFormat.LEAST_BYTES) {
      throw bytes.fault(
          start, "format chunk", WavFormat.LEAST_BYTES + " bytes", Long.toString(there));
    }
    return new Chunk(start, there);
  }

  private Chunk samples(long start, long size) throws IOException {
    long there = bytes.size - start;
    boolean isOpen = size == UNKNOWN_SIZE && !(is64Bit && declared64 >= 0);
    long declared = is64Bit && size == UNKNOWN_SIZE && declared64 >= 0 ? declared64 : size;
    isOpen |= declared == 0 && there > 0 && !isName(start);
    if (declared > there || isOpen) {
      findings.add(
          Finding.caution(
              FindingCode.RECORD_COUNT,
              isOpen
                  ? "The file does not say how many bytes of samples it holds; all "
                      + there
                      + " to its end are used."
                  : "The file declares "
                      + declared
                      + " bytes of samples and holds "
                      + there
                      + "; these are used.",
              Evidence.NONE));
      return new Chunk(start, there);
    }
    return new Chunk(start, declared);
  }

  private void leftOut(Chunk chunk) {
    if (findings.stream().noneMatch(finding -> finding.code() == FindingCode.TRAILING_BYTES)) {
      findings.add(
          Finding.caution(
              FindingCode.TRAILING_BYTES,
              "A second block of samples of "
                  + chunk.size()
                  + " bytes at byte "
                  + chunk.start()
                  + " is left out.",
              Evidence.NONE));
    }
  }

  private long next(long start, long size) throws IOException {
    long end = start + size;
    boolean isPadded = size % 2 == 1 && (isName(end + 1) || !isName(end));
    return isPadded ? end + 1 : end;
  }

  /** Whether a chunk can begin at a place: four characters. */
  private boolean isName(long at) throws IOException {
    if (bytes.size - at < HEAD_BYTES) {
      return false;
    }
    return name(bytes.read(at, HEAD_BYTES)).chars().allMatch(c -> c >= ' ' && c < 127);
  }

  private static String name(ByteBuffer head) {
    StringBuilder name = new StringBuilder();
    for (int k = 0; k < 4; k++) {
      name.append((char) (head.get(k) & 0xFF));
    }
    return name.toString();
  }
}
