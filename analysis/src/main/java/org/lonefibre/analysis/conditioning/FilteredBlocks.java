package org.lonefibre.analysis.conditioning;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.filter.ZeroPhase;
import org.lonefibre.signal.filter.ZeroPhase.Edge;
import org.lonefibre.signal.recording.Segment;

/**
 * The filtered samples of a site, made in blocks when they are wanted; those used last are kept.
 *
 * <p>Each segment is filtered as if nothing lay beyond its ends. Thread rule: any thread may read;
 * blocks are made one at a time.
 */
final class FilteredBlocks {

  /** Looks at raw samples as they pass. */
  interface RawVisitor {
    /** Samples of a segment, in order, each once, from {@code first} of the channel on. */
    void visit(Segment segment, long first, double[] samples, int offset, int length);
  }

  private final RawSource source;
  private final ZeroPhase filter;
  private final List<Segment> segments;
  private final Twins twins;
  private final int blockLength;
  private final int capacity;
  private final long[] firstBlock;

  /** In order of use, the oldest first. */
  private final Map<Long, Block> kept = new LinkedHashMap<>(64, 0.75f, true);

  /** All blocks of a site that is kept whole: once made, one is read without the lock. */
  private final AtomicReferenceArray<Block> whole;

  private final boolean holdsAll;

  private double[] raw = new double[0];
  private double[] forward = new double[0];

  /** Which of the filtered signals are kept. */
  enum Twins {
    ZERO_PHASE,
    BOTH
  }

  private static final class Block {
    final double[] zeroPhase;
    final double @Nullable [] causal;

    Block(int length, Twins twins) {
      zeroPhase = new double[length];
      causal = twins == Twins.BOTH ? new double[length] : null;
    }
  }

  FilteredBlocks(
      RawSource source, ZeroPhase filter, List<Segment> segments, BlockMemory memory, Twins twins) {
    this.twins = twins;
    long sampleBytes = twins == Twins.BOTH ? 16 : 8;
    this.source = source;
    this.filter = filter;
    this.segments = segments;
    int length = memory.blockSamples();
    while (length < 2 * filter.overlapLength() && length < 1 << 24) {
      length *= 2;
    }
    this.blockLength = length;
    this.capacity =
        (int) Math.max(2, ((long) memory.cacheMegabytes() << 20) / (sampleBytes * length));
    this.firstBlock = new long[segments.size() + 1];
    for (int s = 0; s < segments.size(); s++) {
      long blocks = (segments.get(s).sampleCount() + length - 1) / length;
      firstBlock[s + 1] = firstBlock[s] + blocks;
    }
    long samples = segments.stream().mapToLong(Segment::sampleCount).sum();
    this.holdsAll = samples <= (long) blockLength * capacity;
    this.whole = new AtomicReferenceArray<>(holdsAll ? (int) firstBlock[segments.size()] : 0);
  }

  /** Whether the whole site can be kept. */
  boolean holdsAll() {
    return holdsAll;
  }

  /** Any samples as the filter lets them pass, both ways. */
  double[] passed(double[] samples) {
    return filter.filter(samples);
  }

  /** Index of the segment that holds a range of samples; -1 if none does. */
  int segmentOf(long first, long length) {
    int low = 0;
    int high = segments.size() - 1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      Segment segment = segments.get(middle);
      if (first < segment.firstSample()) {
        high = middle - 1;
      } else if (first >= segment.endSample()) {
        low = middle + 1;
      } else {
        return first + length <= segment.endSample() ? middle : -1;
      }
    }
    return -1;
  }

  /**
   * Shows every raw sample of the site once; filters and keeps on the way if all can be kept, for
   * another filter too.
   */
  synchronized void visitAll(RawVisitor visitor, FilteredBlocks beside) throws IOException {
    boolean forBoth =
        beside.holdsAll
            && beside.blockLength == blockLength
            && beside.filter.overlapLength() <= filter.overlapLength();
    for (int s = 0; s < segments.size(); s++) {
      Segment segment = segments.get(s);
      for (long b = firstBlock[s]; b < firstBlock[s + 1]; b++) {
        long first = segment.firstSample() + (b - firstBlock[s]) * blockLength;
        int length = (int) Math.min(blockLength, segment.endSample() - first);
        if (holdsAll) {
          Block block = new Block(length, twins);
          Piece piece = read(segment, first, length);
          make(piece, block.zeroPhase, block.causal);
          keep(b, block);
          if (forBoth) {
            beside.take(b, piece);
          }
          visitor.visit(segment, first, piece.samples, piece.wantedFrom, length);
        } else {
          ensureRaw(length);
          source.read(first, raw, 0, length);
          visitor.visit(segment, first, raw, 0, length);
        }
      }
    }
  }

  private synchronized void take(long index, Piece piece) {
    Block block = new Block(piece.wanted, twins);
    make(piece, block.zeroPhase, block.causal);
    keep(index, block);
  }

  /** Copies filtered samples that lie inside one segment; a destination may be null. */
  void read(
      int s,
      long first,
      int length,
      double @Nullable [] zeroPhase,
      double @Nullable [] causal,
      int offset)
      throws IOException {
    long start = segments.get(s).firstSample();
    int done = 0;
    while (done < length) {
      long place = first + done - start;
      Block block = block(s, firstBlock[s] + place / blockLength);
      int within = (int) (place % blockLength);
      int count = Math.min(length - done, block.zeroPhase.length - within);
      if (zeroPhase != null) {
        System.arraycopy(block.zeroPhase, within, zeroPhase, offset + done, count);
      }
      if (causal != null && block.causal != null) {
        System.arraycopy(block.causal, within, causal, offset + done, count);
      }
      done += count;
    }
  }

  /** As {@link #read}, but a site too long to be kept is not disturbed: the piece alone is made. */
  void sample(int s, long first, int length, double[] zeroPhase, double[] causal)
      throws IOException {
    if (holdsAll) {
      read(s, first, length, zeroPhase, causal, 0);
    } else {
      synchronized (this) {
        make(read(segments.get(s), first, length), zeroPhase, causal);
      }
    }
  }

  private Block block(int s, long index) throws IOException {
    Block block = holdsAll ? whole.getAcquire((int) index) : null;
    return block == null ? found(s, index) : block;
  }

  private synchronized Block found(int s, long index) throws IOException {
    Block block = holdsAll ? whole.getAcquire((int) index) : kept.get(index);
    if (block == null) {
      Segment segment = segments.get(s);
      long first = segment.firstSample() + (index - firstBlock[s]) * blockLength;
      int length = (int) Math.min(blockLength, segment.endSample() - first);
      block = new Block(length, twins);
      make(read(segment, first, length), block.zeroPhase, block.causal);
      keep(index, block);
    }
    return block;
  }

  private void keep(long index, Block block) {
    if (holdsAll) {
      whole.setRelease((int) index, block);
      return;
    }
    kept.put(index, block);
    if (kept.size() > capacity) {
      Long oldest = kept.keySet().iterator().next();
      kept.remove(oldest);
    }
  }

  /** Reads one piece of a segment with what the filter needs around it. */
  private Piece read(Segment segment, long first, int length) throws IOException {
    int overlap = filter.overlapLength();
    long from = Math.max(segment.firstSample(), first - overlap);
    long to = Math.min(segment.endSample(), first + length + overlap);
    int count = (int) (to - from);
    ensureRaw(count);
    source.read(from, raw, 0, count);
    return new Piece(
        raw,
        count,
        from == segment.firstSample() ? Edge.END : Edge.CONTINUES,
        to == segment.endSample() ? Edge.END : Edge.CONTINUES,
        (int) (first - from),
        length);
  }

  private void make(Piece piece, double[] zeroPhase, double @Nullable [] causal) {
    if (forward.length < piece.length) {
      forward = new double[piece.length];
    }
    filter.filter(
        piece.samples,
        piece.length,
        piece.start,
        piece.end,
        piece.wantedFrom,
        forward,
        zeroPhase,
        piece.wanted);
    if (causal != null) {
      System.arraycopy(forward, piece.wantedFrom, causal, 0, piece.wanted);
    }
  }

  private void ensureRaw(int length) {
    if (raw.length < length) {
      raw = new double[length];
    }
  }

  /** Raw samples with their overlaps, until the next are read. */
  private static final class Piece {
    final double[] samples;
    final int length;
    final Edge start;
    final Edge end;
    final int wantedFrom;
    final int wanted;

    Piece(double[] samples, int length, Edge start, Edge end, int wantedFrom, int wanted) {
      this.samples = samples;
      this.length = length;
      this.start = start;
      this.end = end;
      this.wantedFrom = wantedFrom;
      this.wanted = wanted;
    }
  }
}
