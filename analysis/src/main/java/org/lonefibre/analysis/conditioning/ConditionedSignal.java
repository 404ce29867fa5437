package org.lonefibre.analysis.conditioning;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * One channel of one site, ready to be measured.
 *
 * <ul>
 *   <li>Sample indices are those of the channel as stored. Values are microvolts, or the channel's
 *       own unit without calibration.
 *   <li>Reads must lie inside one of {@link #segments()}: IllegalArgumentException otherwise. A
 *       file that cannot be read any more: UncheckedIOException. The recording must stay open.
 *   <li>Filtered samples are made when they are wanted, in blocks; block borders change no sample
 *       by more than 1e-9 of the signal's size.
 *   <li>Values are always finite: missing samples are bridged and lie in {@link #unusable()}.
 *   <li>{@link #forTiming()} is the same site filtered more steeply, in which potentials are found
 *       and placed; sizes and shapes are those of the signal itself.
 *   <li>Thread rule: reading from several threads is safe.
 * </ul>
 */
public final class ConditionedSignal {

  private final Channel channel;
  private final List<Segment> segments;
  private final RawSource source;
  private final FilteredBlocks blocks;
  private final NoiseEstimate noise;
  private final double smallestNoise;
  private final List<Segment> unusable;
  private final List<Finding> findings;
  private final ConditioningRecord record;
  private final @Nullable ConditionedSignal timing;

  ConditionedSignal(
      Channel channel,
      List<Segment> segments,
      RawSource source,
      FilteredBlocks blocks,
      NoiseEstimate noise,
      double smallestNoise,
      List<Segment> unusable,
      List<Finding> findings,
      ConditioningRecord record,
      @Nullable ConditionedSignal timing) {
    this.channel = channel;
    this.segments = List.copyOf(segments);
    this.source = source;
    this.blocks = blocks;
    this.noise = noise;
    this.smallestNoise = smallestNoise;
    this.unusable = List.copyOf(unusable);
    this.findings = List.copyOf(findings);
    this.record = record;
    this.timing = timing;
  }

  /**
   * The same samples with a higher high-pass, both ways: the slow tails of a potential reach its
   * neighbours less, so that each is placed by its own steep phase. Itself, if it is that already.
   */
  public ConditionedSignal forTiming() {
    return timing == null ? this : timing;
  }

  /** Exact rate. */
  public TimeBase timeBase() {
    return channel.timeBase();
  }

  /** The channel. */
  public Channel channel() {
    return channel;
  }

  /** First sample of the site. */
  public long firstSample() {
    return segments.get(0).firstSample();
  }

  /** Sample after the last of the site. */
  public long endSample() {
    return segments.get(segments.size() - 1).endSample();
  }

  /** Continuous stretches of the site, in order; at least one. */
  public List<Segment> segments() {
    return segments;
  }

  /**
   * Robust standard deviation of the zero-phase signal outside potentials; above 0 (at least what
   * the converter's steps make, step / sqrt(12)).
   */
  public double noiseUv() {
    return Math.max(noise.zeroPhaseSd(), smallestNoise);
  }

  /** As {@link #noiseUv}, of the causal twin. */
  public double causalNoiseUv() {
    return Math.max(noise.causalSd(), smallestNoise);
  }

  /**
   * Correlation of the zero-phase signal outside potentials with itself.
   *
   * @param lags largest distance in samples, 0 to 1,000
   * @return {@code lags + 1} values between -1 and 1, the first 1; zeros behind it if nothing could
   *     be estimated
   */
  public double[] noiseAutocorrelation(int lags) {
    checkLags(lags);
    return noise.autocorrelation(lags);
  }

  /**
   * The same with known potentials left out, those too small to stand out of the noise among them.
   *
   * @param arrivalSamples where potentials arrive
   */
  public double[] noiseAutocorrelation(int lags, double[] arrivalSamples) {
    checkLags(lags);
    List<Stretch> potentials = new ArrayList<>();
    for (double arrival : arrivalSamples) {
      potentials.add(new Stretch(Math.round(arrival), Math.round(arrival) + 1));
    }
    return noise.autocorrelationWithout(potentials, lags);
  }

  private static void checkLags(int lags) {
    if (lags < 0 || lags > NoiseEstimate.MOST_LAGS) {
      throw new IllegalArgumentException("lags must be 0 to 1000 samples, found " + lags);
    }
  }

  /** Any wave at the rate of the channel, as the filter of this signal lets it pass, both ways. */
  public double[] passed(double[] wave) {
    return blocks.passed(wave);
  }

  /**
   * Zero-phase samples: for times.
   *
   * @param first first sample wanted
   * @param destination receives {@code length} samples from {@code offset} on
   */
  public void read(long first, double[] destination, int offset, int length) {
    int segment = check(first, destination, offset, length);
    try {
      blocks.read(segment, first, length, destination, null, offset);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Samples filtered once, forwards, as an amplifier does: for the acceptance rules. Not of the
   * signal for timing: IllegalStateException.
   */
  public void readCausal(long first, double[] destination, int offset, int length) {
    if (timing == null) {
      throw new IllegalStateException("the signal for timing keeps no causal twin");
    }
    int segment = check(first, destination, offset, length);
    try {
      blocks.read(segment, first, length, null, destination, offset);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Samples of the file, missing ones and garbage at the start replaced. */
  public void readRaw(long first, double[] destination, int offset, int length) {
    check(first, destination, offset, length);
    try {
      source.read(first, destination, offset, length);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What was noticed. */
  public List<Finding> findings() {
    return findings;
  }

  /**
   * Stretches where nothing may be measured: clipped, constant, wrapped around, missing, each with
   * 1 ms around it (engineering choice); in order, not overlapping.
   */
  public List<Segment> unusable() {
    return unusable;
  }

  /** What was done. */
  public ConditioningRecord record() {
    return record;
  }

  private int check(long first, double[] destination, int offset, int length) {
    if (offset < 0 || length < 0 || offset > destination.length - length) {
      throw new IllegalArgumentException(
          "a destination of "
              + destination.length
              + " cannot take "
              + length
              + " samples from "
              + offset
              + " on");
    }
    int segment = blocks.segmentOf(first, length);
    if (segment < 0) {
      throw new IllegalArgumentException(
          "samples "
              + first
              + " to "
              + (first + length)
              + " do not lie inside one segment of the site, which is samples "
              + firstSample()
              + " to "
              + endSample());
    }
    return segment;
  }
}
