package org.lonefibre.analysis.sweep;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Finds the stimuli of a site: from a marker channel (rising edges, interpolated where the edge
 * shows values between), from annotations, or from the artefact.
 *
 * <ul>
 *   <li>A stimulus known only to the sample has a grid error whose jitter is a third of a sample
 *       (mean difference of two uniform errors); it enters the floor. Where an artefact stands
 *       beside each marker, its shape says what the marker does not ({@link ArtefactTimes}).
 *   <li>Times in annotations say that a stimulus was given, never when: without an artefact their
 *       error is taken as one sample, and a finding says so.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class StimulusFinder {

  /** Standard deviation whose 1.128-fold is a third: the jitter of a grid of one sample. */
  private static final double GRID_ERROR = 1 / (3 * 1.1283791670955126);

  private static final double EDGE_ERROR = 0.05;
  private static final double DEAD_MS = 15;
  private static final int FEWEST = 10;
  private static final int BLOCK = 1 << 16;

  private StimulusFinder() {}

  /** Rising edges of a marker channel, as positions on the recorded channel. */
  public static StimulusTrain fromMarker(
      Recording recording, Channel marker, ConditionedSignal signal) throws IOException {
    List<Double> edges = new ArrayList<>();
    int between = 0;
    double[] levels = levels(recording, marker);
    double middle = (levels[0] + levels[1]) / 2;
    double span = levels[1] - levels[0];
    double[] samples = new double[BLOCK + 1];
    for (Segment segment : marker.segments()) {
      for (long at = segment.firstSample(); at + 1 < segment.endSample(); at += BLOCK) {
        int length = (int) Math.min(BLOCK + 1, segment.endSample() - at);
        recording.read(marker, at, samples, 0, length);
        for (int k = 1; k < length && span > 0; k++) {
          if (samples[k - 1] < middle && samples[k] >= middle) {
            double fraction = (middle - samples[k - 1]) / (samples[k] - samples[k - 1]);
            boolean shown = samples[k] - samples[k - 1] < 0.9 * span;
            between += shown ? 1 : 0;
            double position = at + k - 1 + (shown ? fraction : 1);
            double timeS =
                segment.startS() + marker.timeBase().timeS(position - segment.firstSample());
            addAt(signal, timeS, edges);
          }
        }
      }
    }
    boolean fine = between > 0.8 * Math.max(1, edges.size());
    if (!fine) {
      double[] onGrid = edges.stream().mapToDouble(Double::doubleValue).toArray();
      Optional<ArtefactTimes.Times> better = ArtefactTimes.find(signal, onGrid);
      if (better.isPresent()) {
        return train(
            StimulusTrain.Source.MARKER,
            Arrays.stream(better.get().positionSamples()).boxed().toList(),
            better.get().errorSamples(),
            signal,
            true);
      }
    }
    double ratio = signal.timeBase().samplingRateHz() / marker.timeBase().samplingRateHz();
    double error = fine ? EDGE_ERROR : GRID_ERROR * ratio;
    return train(StimulusTrain.Source.MARKER, edges, error, signal, fine);
  }

  /** Annotated stimuli, moved to the artefact if one stands near each of them. */
  public static StimulusTrain fromAnnotations(List<Double> timesS, ConditionedSignal signal) {
    List<Double> positions = new ArrayList<>();
    for (double timeS : timesS) {
      addAt(signal, timeS, positions);
    }
    double reach = signal.timeBase().lengthSamples(1500);
    double least = 12 * signal.noiseUv();
    List<Double> placed = new ArrayList<>();
    for (double position : positions) {
      double at = steepestNear(signal, position, reach, least);
      if (!Double.isNaN(at)) {
        placed.add(at);
      }
    }
    // Were only some moved, latencies from both kinds of time would be mixed.
    boolean fine = !placed.isEmpty() && placed.size() == positions.size();
    return train(
        StimulusTrain.Source.ANNOTATIONS,
        fine ? placed : positions,
        fine ? EDGE_ERROR : 1,
        signal,
        fine);
  }

  /** Artefacts: very large, short and regular. */
  public static StimulusTrain fromArtefact(ConditionedSignal signal) {
    double largest = 0;
    double[] samples = new double[BLOCK];
    for (Segment segment : signal.segments()) {
      for (long at = segment.firstSample(); at < segment.endSample(); at += BLOCK) {
        int length = (int) Math.min(BLOCK, segment.endSample() - at);
        signal.read(at, samples, 0, length);
        for (int k = 0; k < length; k++) {
          largest = Math.max(largest, Math.abs(samples[k]));
        }
      }
    }
    List<Double> found = largePeaks(signal, 0.4 * largest);
    return isRegular(found)
        ? train(StimulusTrain.Source.ARTEFACT, found, EDGE_ERROR, signal, true)
        : train(StimulusTrain.Source.ARTEFACT, List.of(), EDGE_ERROR, signal, true);
  }

  private static List<Double> largePeaks(ConditionedSignal signal, double threshold) {
    List<Double> found = new ArrayList<>();
    double dead = signal.timeBase().lengthSamples(DEAD_MS * 1000);
    double[] samples = new double[BLOCK];
    double last = Double.NEGATIVE_INFINITY;
    for (Segment segment : signal.segments()) {
      for (long at = segment.firstSample(); at < segment.endSample(); at += BLOCK) {
        int length = (int) Math.min(BLOCK, segment.endSample() - at);
        signal.read(at, samples, 0, length);
        for (int k = 0; k < length; k++) {
          if (Math.abs(samples[k]) > threshold && at + k - last > dead) {
            double steep =
                steepestNear(signal, at + k, signal.timeBase().lengthSamples(500), threshold / 4);
            found.add(Double.isNaN(steep) ? at + k : steep);
            last = at + k;
          }
        }
      }
    }
    return found;
  }

  private static boolean isRegular(List<Double> positions) {
    if (positions.size() < FEWEST) {
      return false;
    }
    double[] intervals = new double[positions.size() - 1];
    for (int i = 0; i < intervals.length; i++) {
      intervals[i] = positions.get(i + 1) - positions.get(i);
    }
    double usual = RobustStatistics.median(intervals.clone());
    return RobustStatistics.standardDeviation(intervals) < 0.02 * usual;
  }

  /** Lowest and highest level of a marker, robust against single samples. */
  private static double[] levels(Recording recording, Channel marker) throws IOException {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    double[] samples = new double[BLOCK];
    for (long at = 0; at < marker.sampleCount(); at += BLOCK) {
      int length = (int) Math.min(BLOCK, marker.sampleCount() - at);
      recording.read(marker, at, samples, 0, length);
      for (int k = 0; k < length; k++) {
        low = Math.min(low, samples[k]);
        high = Math.max(high, samples[k]);
      }
    }
    return new double[] {low, high};
  }

  private static void addAt(ConditionedSignal signal, double timeS, List<Double> positions) {
    for (Segment segment : signal.segments()) {
      double position =
          segment.firstSample() + signal.timeBase().positionSamples(timeS - segment.startS());
      if (position >= segment.firstSample() && position < segment.endSample()) {
        positions.add(position);
        return;
      }
    }
  }

  /**
   * Position of the steepest slope near a place, between samples; NaN if nothing large is there.
   */
  private static double steepestNear(
      ConditionedSignal signal, double place, double reach, double least) {
    for (Segment segment : signal.segments()) {
      long from = Math.max(segment.firstSample(), (long) (place - reach));
      long to = Math.min(segment.endSample(), (long) (place + reach));
      if (to - from < 5 || place < segment.firstSample() || place >= segment.endSample()) {
        continue;
      }
      double[] window = new double[(int) (to - from)];
      signal.read(from, window, 0, window.length);
      if (Arrays.stream(window).map(Math::abs).max().orElse(0) < least) {
        return Double.NaN;
      }
      int best = 2;
      for (int k = 2; k < window.length - 2; k++) {
        if (rise(window, k) > rise(window, best)) {
          best = k;
        }
      }
      double curvature = rise(window, best - 1) - 2 * rise(window, best) + rise(window, best + 1);
      double shift =
          curvature < 0 ? 0.5 * (rise(window, best - 1) - rise(window, best + 1)) / curvature : 0;
      return from + best + Math.max(-0.5, Math.min(0.5, shift));
    }
    return Double.NaN;
  }

  private static double rise(double[] window, int k) {
    return k < 1 || k > window.length - 2 ? 0 : Math.abs(window[k + 1] - window[k - 1]);
  }

  private static StimulusTrain train(
      StimulusTrain.Source source,
      List<Double> positions,
      double errorSamples,
      ConditionedSignal signal,
      boolean fine) {
    List<Finding> findings = new ArrayList<>();
    if (positions.isEmpty()) {
      findings.add(
          Finding.exclusion(
              FindingCode.NO_STIMULI,
              "No stimuli were found: name the channel that marks them.",
              Evidence.NONE));
    } else if (!fine) {
      findings.add(
          Finding.caution(
              FindingCode.STIMULUS_GRID,
              String.format(
                  Locale.ROOT,
                  "The stimulus is known only to the sample; that alone gives %.1f us of jitter,"
                      + " which is part of the floor.",
                  1.128 * signal.timeBase().durationUs(errorSamples)),
              Evidence.NONE));
    }
    return new StimulusTrain(
        source,
        positions.stream().mapToDouble(Double::doubleValue).sorted().toArray(),
        errorSamples,
        findings);
  }
}
