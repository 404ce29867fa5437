package org.lonefibre.analysis.conditioning;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.FilteredBlocks.Twins;
import org.lonefibre.signal.filter.SecondOrderSections;
import org.lonefibre.signal.filter.ZeroPhase;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/**
 * Makes a site of a recording ready to be measured.
 *
 * <p>Butterworth high-pass and low-pass, forwards and backwards, so that no time moves; the forward
 * half alone is kept as the causal twin that the trade's acceptance rules presuppose.
 *
 * <ul>
 *   <li>The low-pass is lowered to 0.45 of the sampling rate, the high-pass to 0.2 of it, where
 *       they lie higher (engineering choices; rates that low are refused for jitter anyway).
 *   <li>The mains are taken out only on request: notches of 2 Hz at its frequency and at those
 *       multiples up to 2 kHz that stand out in the recording (engineering choices; a notch at
 *       every multiple would repeat each potential at the mains' period).
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class Conditioner {

  private static final double HIGHEST_LOW_PASS_RATIO = 0.45;
  private static final double HIGHEST_HIGH_PASS_RATIO = 0.2;
  private static final int TIMING_ORDER = 1;
  private static final double NOTCH_WIDTH_HZ = 2;
  private static final double HIGHEST_NOTCH_HZ = 2000;
  private static final double MARGIN_US = 1000;

  private final ConditioningSettings settings;
  private final BlockMemory memory;

  /** With the usual memory. */
  public Conditioner(ConditioningSettings settings) {
    this(settings, BlockMemory.defaults());
  }

  /**
   * One for signals that are looked at and not measured: less of each is kept in memory, and made
   * again when it is wanted again.
   */
  public static Conditioner forShowing(ConditioningSettings settings) {
    return new Conditioner(settings, BlockMemory.small());
  }

  /** With a given memory. */
  Conditioner(ConditioningSettings settings, BlockMemory memory) {
    this.settings = settings;
    this.memory = memory;
  }

  /** The whole of a channel; see {@link #condition(Recording, Channel, long, long)}. */
  public ConditionedSignal condition(Recording recording, Channel channel) throws IOException {
    return condition(recording, channel, 0, channel.sampleCount());
  }

  /**
   * One site: a range of a channel.
   *
   * @param recording stays open as long as the result is used
   * @param channel one of its channels
   * @param firstSample first sample of the site
   * @param endSample sample after the last
   * @throws IllegalArgumentException if the range is empty or lies outside the channel
   * @throws IOException if the file cannot be read
   */
  public ConditionedSignal condition(
      Recording recording, Channel channel, long firstSample, long endSample) throws IOException {
    List<Segment> segments = segments(channel, firstSample, endSample);
    double rateHz = channel.timeBase().samplingRateHz();
    double highPassHz = Math.min(settings.highPassHz(), HIGHEST_HIGH_PASS_RATIO * rateHz);
    double lowPassHz = Math.min(settings.lowPassHz(), HIGHEST_LOW_PASS_RATIO * rateHz);
    RawSource source = new RawSource(recording, channel, segments);
    List<Double> notchesHz = notchesHz(source, channel);
    SecondOrderSections filter = filter(settings.order(), highPassHz, lowPassHz, notchesHz, rateHz);
    FilteredBlocks blocks =
        new FilteredBlocks(source, new ZeroPhase(filter), segments, memory, Twins.BOTH);
    SecondOrderSections steep =
        filter(TIMING_ORDER, timingHighPassHz(highPassHz, rateHz), lowPassHz, notchesHz, rateHz);
    FilteredBlocks steepBlocks =
        new FilteredBlocks(
            source, new ZeroPhase(steep), segments, memory.halved(), Twins.ZERO_PHASE);
    SiteScan scan = new SiteScan(channel);
    blocks.visitAll(scan, steepBlocks);
    RawFacts facts = scan.facts(source.garbage(), source.missing());
    NoiseEstimate noise = new NoiseEstimate(blocks, segments, rateHz, facts.unusable());
    ConditioningRecord record =
        new ConditioningRecord(
            highPassHz,
            lowPassHz,
            settings.order(),
            "zero",
            "causal",
            removedHz(notchesHz),
            channel.prefilter());
    List<Segment> unusable = unusable(facts.unusable(), segments, channel);
    NoiseEstimate steepNoise = new NoiseEstimate(steepBlocks, segments, rateHz, facts.unusable());
    ConditionedSignal timing =
        new ConditionedSignal(
            channel,
            segments,
            source,
            steepBlocks,
            steepNoise,
            smallestNoise(channel, steepNoise),
            unusable,
            List.of(),
            record,
            null);
    return new ConditionedSignal(
        channel,
        segments,
        source,
        blocks,
        noise,
        smallestNoise(channel, noise),
        unusable,
        new ConditioningFindings(
                settings,
                record,
                channel,
                segments,
                facts,
                noise,
                filter,
                notchesHz,
                new SoundTraces(source, segments, rateHz))
            .list(),
        record,
        timing);
  }

  private SecondOrderSections filter(
      int order, double highPassHz, double lowPassHz, List<Double> notchesHz, double rateHz) {
    SecondOrderSections filter =
        SecondOrderSections.highPass(order, highPassHz, rateHz)
            .then(SecondOrderSections.lowPass(settings.order(), lowPassHz, rateHz));
    for (double notchHz : notchesHz) {
      filter = filter.then(SecondOrderSections.notch(notchHz, NOTCH_WIDTH_HZ, rateHz));
    }
    return filter;
  }

  private double timingHighPassHz(double highPassHz, double rateHz) {
    double wantedHz = Math.min(settings.timingHighPassHz(), HIGHEST_HIGH_PASS_RATIO * rateHz);
    return Math.max(highPassHz, wantedHz);
  }

  /** Frequencies to take out; looks through the raw signal only if that was asked for. */
  private List<Double> notchesHz(RawSource source, Channel channel) throws IOException {
    double mainsHz = settings.mainsRemoval().frequencyHz();
    double rateHz = channel.timeBase().samplingRateHz();
    List<Double> notchesHz = new ArrayList<>();
    if (mainsHz > 0 && mainsHz < HIGHEST_LOW_PASS_RATIO * rateHz) {
      SiteScan scan = new SiteScan(channel);
      source.visitAll(scan);
      MainsLine spectrum = scan.facts(List.of(), List.of()).slow().mains();
      notchesHz.add(mainsHz);
      notchesHz.addAll(spectrum.multiplesHz(mainsHz, HIGHEST_NOTCH_HZ));
    }
    return notchesHz;
  }

  private static @Nullable Double removedHz(List<Double> notchesHz) {
    return notchesHz.isEmpty() ? null : notchesHz.get(0);
  }

  private static double smallestNoise(Channel channel, NoiseEstimate noise) {
    Double step = channel.resolutionUv();
    double fromStep = step == null ? 0 : Math.abs(step) / Math.sqrt(12);
    return Math.max(fromStep, Math.max(1e-6 * noise.largestPeakToPeak(), 1e-9));
  }

  private static List<Segment> segments(Channel channel, long firstSample, long endSample) {
    if (firstSample < 0 || endSample > channel.sampleCount() || firstSample >= endSample) {
      throw new IllegalArgumentException(
          "a site must be a range inside samples 0 to "
              + channel.sampleCount()
              + ", found "
              + firstSample
              + " to "
              + endSample);
    }
    List<Segment> inside = new ArrayList<>();
    for (Segment segment : channel.segments()) {
      long first = Math.max(firstSample, segment.firstSample());
      long end = Math.min(endSample, segment.endSample());
      if (first < end) {
        inside.add(part(segment, first, end, channel));
      }
    }
    if (inside.isEmpty()) {
      throw new IllegalArgumentException(
          "no segment of the channel holds samples " + firstSample + " to " + endSample);
    }
    return inside;
  }

  private static List<Segment> unusable(
      List<Stretch> stretches, List<Segment> segments, Channel channel) {
    long margin = (long) Math.ceil(channel.timeBase().lengthSamples(MARGIN_US));
    List<Stretch> wider =
        Stretch.merged(
            stretches.stream().map(s -> new Stretch(s.first() - margin, s.end() + margin)).toList(),
            1);
    List<Segment> unusable = new ArrayList<>();
    for (Segment segment : segments) {
      for (Stretch stretch : wider) {
        long first = Math.max(stretch.first(), segment.firstSample());
        long end = Math.min(stretch.end(), segment.endSample());
        if (first < end) {
          unusable.add(part(segment, first, end, channel));
        }
      }
    }
    return unusable;
  }

  private static Segment part(Segment segment, long first, long end, Channel channel) {
    double startS =
        segment.startS() + channel.timeBase().timeS((double) (first - segment.firstSample()));
    return new Segment(first, end - first, startS);
  }
}
