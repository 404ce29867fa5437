package org.lonefibre.formats.reader;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.LongToDoubleFunction;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The samples of a channel that are there, where some are missing: runs of a source that counts
 * every sample, missing ones included. A missing sample is a gap in time, never a number.
 *
 * <ul>
 *   <li>Source indices count from the start of the recording, stored indices only what is there.
 *   <li>Thread rule: immutable once built, free to share.
 * </ul>
 */
public final class SampleRuns {

  /** More interruptions than this are no recording; engineering choice. */
  public static final int MOST_RUNS = 1 << 20;

  private final long[] sources;
  private final long[] stored;
  private final long sampleCount;

  private SampleRuns(long[] sources, long[] stored, long sampleCount) {
    this.sources = sources;
    this.stored = stored;
    this.sampleCount = sampleCount;
  }

  /** Receives a piece of what is asked for; it lies in one run. */
  @FunctionalInterface
  public interface Piece {

    /**
     * Handles a piece.
     *
     * @param sourceSample index of its first sample in the source
     * @param offset place of its first sample in the answer, from 0
     * @param length number of its samples
     */
    void accept(long sourceSample, int offset, int length) throws IOException;
  }

  /** Collects runs in order. Thread rule: one thread. */
  public static final class Builder {

    private long[] sources = new long[8];
    private long[] stored = new long[8];
    private int runs;
    private long next = -1;
    private boolean isCut;
    private long sampleCount;

    /**
     * Adds samples that are there; a run that joins the one before becomes part of it.
     *
     * @param sourceSample index of the first, not before the end of what was added
     * @param length how many; 0 adds nothing
     * @return false if there are more than {@value SampleRuns#MOST_RUNS} runs; nothing was added
     */
    public boolean add(long sourceSample, long length) {
      if (length == 0) {
        return true;
      }
      if (length < 0 || sourceSample < next || sourceSample < 0) {
        throw new IllegalArgumentException(
            "runs go forwards; found " + length + " samples at " + sourceSample);
      }
      if (sourceSample != next || isCut) {
        if (runs == MOST_RUNS) {
          return false;
        }
        if (runs == sources.length) {
          sources = Arrays.copyOf(sources, 2 * runs);
          stored = Arrays.copyOf(stored, 2 * runs);
        }
        sources[runs] = sourceSample;
        stored[runs] = sampleCount;
        runs++;
        isCut = false;
      }
      sampleCount += length;
      next = sourceSample + length;
      return true;
    }

    /** What is added next becomes a run of its own, even if it joins the one before. */
    public void cut() {
      isCut = true;
    }

    /** What was added. */
    public SampleRuns build() {
      return new SampleRuns(Arrays.copyOf(sources, runs), Arrays.copyOf(stored, runs), sampleCount);
    }
  }

  /** All samples of a source without interruption. */
  public static SampleRuns whole(long sampleCount) {
    Builder builder = new Builder();
    builder.add(0, sampleCount);
    return builder.build();
  }

  /** Samples that are there. */
  public long sampleCount() {
    return sampleCount;
  }

  /** Number of runs. */
  public int runs() {
    return sources.length;
  }

  /** Index after the last sample that is there, in the source; 0 if none is. */
  public long sourceEnd() {
    int last = sources.length - 1;
    return last < 0 ? 0 : sources[last] + sampleCount - stored[last];
  }

  /** The runs as segments of a recording whose source has this rate and begins at 0 s. */
  public List<Segment> segments(TimeBase timeBase) {
    return segments(source -> timeBase.timeS((double) source));
  }

  /**
   * The runs as segments of a recording.
   *
   * @param startS time of a sample of the source, in s
   */
  public List<Segment> segments(LongToDoubleFunction startS) {
    List<Segment> segments = new ArrayList<>(sources.length);
    for (int r = 0; r < sources.length; r++) {
      segments.add(new Segment(stored[r], endOf(r) - stored[r], startS.applyAsDouble(sources[r])));
    }
    return segments;
  }

  private long endOf(int run) {
    return run + 1 < stored.length ? stored[run + 1] : sampleCount;
  }

  /**
   * Goes through stored samples run by run.
   *
   * @param firstSample stored index of the first
   * @param length how many; they must be there
   */
  public void forEach(long firstSample, int length, Piece piece) throws IOException {
    int found = Arrays.binarySearch(stored, firstSample);
    int run = found >= 0 ? found : -found - 2;
    int done = 0;
    while (done < length) {
      long at = firstSample + done;
      int count = (int) Math.min(length - done, endOf(run) - at);
      piece.accept(sources[run] + at - stored[run], done, count);
      done += count;
      run++;
    }
  }
}
