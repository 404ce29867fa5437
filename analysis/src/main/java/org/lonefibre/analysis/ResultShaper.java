package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.jitter.JitterCounts;
import org.lonefibre.analysis.jitter.JitterMeasurement;
import org.lonefibre.analysis.jitter.JitterResult;
import org.lonefibre.analysis.jitter.UnmeasurableJitter;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.LatencyEntry;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialDrawing;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/** Puts what was computed into the records of the document. */
final class ResultShaper {

  private static final int MOST_DRAWN = 30;
  private static final double DRAWN_STEP_US = 40;

  private final ConditionedSignal signal;

  ResultShaper(ConditionedSignal signal) {
    this.signal = signal;
  }

  /** Time of a position within a segment, since the start of the recording. */
  double timeS(double positionSamples, int segment) {
    Segment within = signal.segments().get(segment);
    return within.startS() + signal.timeBase().timeS(positionSamples - within.firstSample());
  }

  PotentialResult potential(
      String id, TrackedPotential potential, double zeroSamples, GradedPotential graded) {
    boolean calibrated = signal.channel().calibration() == Calibration.MICROVOLT;
    List<Double> errors = new ArrayList<>();
    for (int d = 0; d < potential.discharges(); d++) {
      if (potential.presence(d) == Presence.PRESENT) {
        errors.add(signal.timeBase().durationUs(potential.errorSamples(d)));
      }
    }
    GradedPotential.ShapeEvidence shape = graded.evidence();
    return new PotentialResult(
        id,
        signal.timeBase().durationMs(potential.lagSamples() - zeroSamples),
        calibrated ? potential.shape().peakToPeakUv() : null,
        graded.riseTimeUs(),
        potential.shape().peakToPeakUv() / signal.noiseUv(),
        errors.isEmpty()
            ? null
            : RobustStatistics.median(errors.stream().mapToDouble(Double::doubleValue).toArray()),
        potential.presentCount(),
        graded.grade(),
        graded.gradeByTradeRules(),
        graded.singleFibreProbability(),
        graded.findings(),
        shape == null
            ? null
            : new PotentialDrawing(
                shape.startUs(), shape.stepUs(), shape.meanUv(), shape.sdUv(), signal.noiseUv()));
  }

  static PairResult pair(
      String trigger,
      String paired,
      IntervalSeries series,
      JitterResult jitter,
      @Nullable Finding exclusion,
      List<Finding> more) {
    Numbers numbers = Numbers.of(jitter, exclusion);
    numbers.findings.addAll(more);
    JitterCounts counts = numbers.counts;
    List<SweepEntry> entries = new ArrayList<>();
    for (SweepInterval sweep : series.sweeps()) {
      entries.add(
          new SweepEntry(
              sweep.sweep(), sweep.timeS(), sweep.intervalUs(), sweep.errorUs(), sweep.state()));
    }
    JitterMeasurement measured = numbers.measured;
    return new PairResult(
        trigger + "-" + paired,
        trigger,
        paired,
        counts.sweeps(),
        counts.presentSweeps(),
        counts.blockedSweeps(),
        counts.triggerAbsentSweeps(),
        counts.obscuredSweeps(),
        counts.excludedSweeps(),
        counts.differences(),
        counts.blockingPercent(),
        measured == null ? null : measured.meanIntervalUs(),
        measured == null ? null : measured.meanConsecutiveDifferenceUs(),
        measured == null ? null : measured.meanSortedDifferenceUs(),
        measured == null ? null : measured.jitterUs(),
        measured == null ? null : measured.statistic(),
        measured == null ? null : measured.timingFloorUs(),
        measured == null ? null : measured.correctedJitterUs(),
        measured == null ? null : measured.correctedJitterLowUs(),
        measured == null ? null : measured.correctedJitterHighUs(),
        numbers.meanInterDischargeIntervalMs,
        numbers.status,
        numbers.findings,
        entries);
  }

  static EndPlateResult endPlate(
      String potential,
      IntervalSeries series,
      JitterResult jitter,
      @Nullable Finding exclusion,
      List<Finding> more) {
    Numbers numbers = Numbers.of(jitter, exclusion);
    numbers.findings.addAll(more);
    JitterCounts counts = numbers.counts;
    List<LatencyEntry> entries = new ArrayList<>();
    for (SweepInterval sweep : series.sweeps()) {
      entries.add(
          new LatencyEntry(
              sweep.sweep(), sweep.timeS(), sweep.intervalUs(), sweep.errorUs(), sweep.state()));
    }
    JitterMeasurement measured = numbers.measured;
    return new EndPlateResult(
        "stimulus-" + potential,
        potential,
        counts.sweeps(),
        counts.presentSweeps(),
        counts.blockedSweeps(),
        counts.obscuredSweeps(),
        counts.excludedSweeps(),
        counts.differences(),
        counts.blockingPercent(),
        measured == null ? null : measured.meanIntervalUs(),
        measured == null ? null : measured.meanConsecutiveDifferenceUs(),
        measured == null ? null : measured.jitterUs(),
        measured == null ? null : measured.statistic(),
        measured == null ? null : measured.timingFloorUs(),
        measured == null ? null : measured.correctedJitterUs(),
        measured == null ? null : measured.correctedJitterLowUs(),
        measured == null ? null : measured.correctedJitterHighUs(),
        numbers.status,
        numbers.findings,
        entries);
  }

  /** Sweeps superimposed on a potential, at most {@value #MOST_DRAWN}, spread over the site. */
  SweepDrawing drawing(TrackedUnit unit, TrackedPotential trigger, double reachMs) {
    double first = trigger.lagSamples();
    double last = first;
    for (TrackedPotential potential : unit.potentials()) {
      first = Math.min(first, potential.lagSamples());
      last = Math.max(last, potential.lagSamples());
    }
    double startMs =
        Math.max(-reachMs, signal.timeBase().durationMs(first - trigger.lagSamples()) - 1.5);
    double endMs =
        Math.min(reachMs + 30, signal.timeBase().durationMs(last - trigger.lagSamples()) + 2);
    double[] zero = new double[unit.discharges()];
    for (int d = 0; d < zero.length; d++) {
      zero[d] = trigger.presence(d) == Presence.PRESENT ? trigger.arrivalSamples(d) : Double.NaN;
    }
    return drawing(unit, zero, startMs, endMs);
  }

  /** Sweeps superimposed on given positions (NaN where a sweep is not to be drawn). */
  SweepDrawing drawing(TrackedUnit unit, double[] zeroSamples, double startMs, double endMs) {
    int step = Math.max(1, (int) Math.round(signal.timeBase().lengthSamples(DRAWN_STEP_US)));
    int length = (int) signal.timeBase().lengthSamples((endMs - startMs) * 1000);
    double[] window = new double[length + 2 * FractionalDelay.HALF_TAPS + 2];
    double[] row = new double[length];
    FractionalDelay delay = new FractionalDelay();
    List<Integer> sweeps = new ArrayList<>();
    List<List<Double>> values = new ArrayList<>();
    int every = Math.max(1, zeroSamples.length / MOST_DRAWN);
    for (int d = 0; d < zeroSamples.length && sweeps.size() < MOST_DRAWN; d += every) {
      if (Double.isNaN(zeroSamples[d])) {
        continue;
      }
      double from = zeroSamples[d] + signal.timeBase().lengthSamples(startMs * 1000);
      long start = (long) Math.floor(from) - FractionalDelay.HALF_TAPS;
      Segment within = signal.segments().get(unit.segment(d));
      if (start < within.firstSample() || start + window.length > within.endSample()) {
        continue;
      }
      signal.read(start, window, 0, window.length);
      delay.read(window, from - start, row, length);
      List<Double> drawn = new ArrayList<>();
      for (int k = 0; k < length; k += step) {
        drawn.add(Math.round(10 * row[k]) / 10.0);
      }
      sweeps.add(d + 1);
      values.add(drawn);
    }
    return new SweepDrawing(startMs, signal.timeBase().durationMs(step), sweeps, values);
  }

  /** The parts of a measurement that pairs and end-plates share. */
  private static final class Numbers {

    final @Nullable JitterMeasurement measured;
    final JitterCounts counts;
    final @Nullable Double meanInterDischargeIntervalMs;
    final PairStatus status;
    final List<Finding> findings = new ArrayList<>();

    private Numbers(
        @Nullable JitterMeasurement measured,
        JitterCounts counts,
        @Nullable Double meanInterDischargeIntervalMs,
        PairStatus status) {
      this.measured = measured;
      this.counts = counts;
      this.meanInterDischargeIntervalMs = meanInterDischargeIntervalMs;
      this.status = status;
    }

    static Numbers of(JitterResult jitter, @Nullable Finding exclusion) {
      Numbers numbers;
      if (jitter instanceof JitterMeasurement measured) {
        boolean excluded = exclusion != null || measured.isExcluded();
        numbers =
            new Numbers(
                measured,
                measured.counts(),
                measured.meanInterDischargeIntervalMs(),
                excluded ? PairStatus.EXCLUDED : PairStatus.MEASURED);
        if (exclusion != null) {
          numbers.findings.add(exclusion);
        }
        numbers.findings.addAll(measured.findings());
        return numbers;
      }
      UnmeasurableJitter none = (UnmeasurableJitter) jitter;
      numbers =
          new Numbers(
              null, none.counts(), none.meanInterDischargeIntervalMs(), PairStatus.UNMEASURABLE);
      if (exclusion != null) {
        numbers.findings.add(exclusion);
      }
      numbers.findings.addAll(none.findings());
      return numbers;
    }
  }
}
