package org.lonefibre.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.LatencyEntry;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialDrawing;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.signal.recording.Finding;

/** An invented pair or end-plate: sweeps drawn from a seed, everything else computed from them. */
final class InventedSignal {

  private static final double STEP_MS = 0.02;
  private static final int LAST = 400;

  private final Random random;
  private final double intervalUs;
  private final List<@Nullable Double> values = new ArrayList<>();
  private final List<SweepState> states = new ArrayList<>();
  private final List<Double> times = new ArrayList<>();

  InventedSignal(long seed, int sweeps, double intervalUs, double jitterUs, double blocking) {
    this.random = new Random(seed);
    this.intervalUs = intervalUs;
    double deviation = jitterUs / 1.128;
    double time = 0.4;
    for (int i = 0; i < sweeps; i++) {
      time += 0.085 + 0.008 * random.nextGaussian();
      times.add(time);
      double draw = random.nextDouble();
      SweepState state =
          draw < blocking
              ? SweepState.BLOCKED
              : draw > 0.985 ? SweepState.OBSCURED : SweepState.PRESENT;
      states.add(state);
      values.add(
          state == SweepState.PRESENT ? intervalUs + deviation * random.nextGaussian() : null);
    }
  }

  /** Lets the intervals jump between two values, as in a flip-flop. */
  InventedSignal inTwoClusters(double distanceUs) {
    for (int i = 0; i < values.size(); i++) {
      Double value = values.get(i);
      if (value != null && (i / 7) % 2 == 1) {
        values.set(i, value + distanceUs);
      }
    }
    return this;
  }

  int count(SweepState state) {
    return (int) states.stream().filter(s -> s == state).count();
  }

  int differences() {
    int count = 0;
    for (int i = 1; i < values.size(); i++) {
      count += values.get(i) != null && values.get(i - 1) != null ? 1 : 0;
    }
    return count;
  }

  double meanConsecutiveDifferenceUs() {
    double sum = 0;
    for (int i = 1; i < values.size(); i++) {
      Double before = values.get(i - 1);
      Double value = values.get(i);
      sum += before != null && value != null ? Math.abs(value - before) : 0;
    }
    return sum / Math.max(1, differences());
  }

  double blockingPercent() {
    int blocked = count(SweepState.BLOCKED);
    return 100.0 * blocked / (blocked + count(SweepState.PRESENT));
  }

  PairResult pair(
      String id, String trigger, String paired, PairStatus status, List<Finding> findings) {
    boolean number = status != PairStatus.UNMEASURABLE;
    double jitter = meanConsecutiveDifferenceUs();
    double corrected = Math.sqrt(Math.max(0.01, jitter * jitter - 2.4 * 2.4));
    double error = 1.96 * 0.915 / Math.sqrt(Math.max(2, differences()));
    List<SweepEntry> entries = new ArrayList<>();
    for (int i = 0; i < values.size(); i++) {
      entries.add(
          new SweepEntry(
              i + 1,
              times.get(i),
              values.get(i),
              values.get(i) == null ? null : 1.5,
              states.get(i)));
    }
    return new PairResult(
        id,
        trigger,
        paired,
        values.size(),
        count(SweepState.PRESENT),
        count(SweepState.BLOCKED),
        0,
        count(SweepState.OBSCURED),
        0,
        differences(),
        blockingPercent(),
        number ? intervalUs : null,
        number ? jitter : null,
        number ? jitter * 0.96 : null,
        number ? jitter : null,
        number ? JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE : null,
        number ? 2.4 : null,
        number ? corrected : null,
        number ? corrected * Math.exp(-error) : null,
        number ? corrected * Math.exp(error) : null,
        85.0,
        status,
        findings,
        entries);
  }

  EndPlateResult endPlate(String id, String potential, PairStatus status, List<Finding> findings) {
    PairResult pair = pair(id, "stimulus", potential, status, findings);
    return new EndPlateResult(
        id,
        potential,
        pair.sweeps(),
        pair.presentSweeps(),
        pair.blockedSweeps(),
        pair.obscuredSweeps(),
        0,
        pair.differences(),
        pair.blockingPercent(),
        pair.meanIntervalUs(),
        pair.meanConsecutiveDifferenceUs(),
        pair.jitterUs(),
        pair.jitterStatistic(),
        pair.timingFloorUs(),
        pair.correctedJitterUs(),
        pair.correctedJitterLowUs(),
        pair.correctedJitterHighUs(),
        status,
        findings,
        pair.intervals().stream()
            .map(
                s -> new LatencyEntry(s.sweep(), s.timeS(), s.intervalUs(), s.errorUs(), s.state()))
            .toList());
  }

  /** Sweeps on the trigger, or on a stimulus if the trigger has no amplitude. */
  SweepDrawing drawing(double triggerUv, double pairedUv) {
    List<Integer> numbers = new ArrayList<>();
    List<List<Double>> sweeps = new ArrayList<>();
    double startMs = -2;
    for (int i = 0; i < Math.min(50, values.size()); i++) {
      numbers.add(i + 1);
      List<Double> sweep = new ArrayList<>();
      Double value = values.get(i);
      for (int s = 0; s < LAST; s++) {
        double ms = startMs + s * STEP_MS;
        double uv = 9 * random.nextGaussian() + shape(ms, triggerUv);
        if (value != null) {
          uv += shape(ms - value / 1000, pairedUv);
        }
        sweep.add(Math.round(uv * 10) / 10.0);
      }
      sweeps.add(sweep);
    }
    return new SweepDrawing(startMs, STEP_MS, numbers, sweeps);
  }

  /** A potential with its shape; a composite one varies more than noise. */
  static PotentialResult potential(
      String id, double offsetMs, double amplitudeUv, Grade grade, List<Finding> findings) {
    List<Double> mean = new ArrayList<>();
    List<Double> deviation = new ArrayList<>();
    double spread = grade == Grade.COMPOSITE ? 0.16 : grade == Grade.DOUBTFUL ? 0.05 : 0.004;
    for (int i = 0; i < 80; i++) {
      double ms = (i - 30) * STEP_MS;
      double uv = shape(ms, amplitudeUv);
      if (grade == Grade.COMPOSITE) {
        uv = 0.7 * uv + shape(ms - 0.16, 0.5 * amplitudeUv);
      }
      mean.add(uv);
      double slope = (shape(ms + 0.01, amplitudeUv) - shape(ms - 0.01, amplitudeUv)) / 2;
      deviation.add(Math.hypot(9, spread * 3 * slope) * (1 + 0.02 * Math.sin(i)));
    }
    return new PotentialResult(
        id,
        offsetMs,
        amplitudeUv,
        grade == Grade.COMPOSITE ? 360.0 : 140.0 + amplitudeUv / 20,
        amplitudeUv / 9,
        1.5,
        96,
        grade,
        Grade.SINGLE_FIBRE,
        grade == Grade.UNGRADED
            ? null
            : Double.valueOf(
                grade == Grade.COMPOSITE ? 0.02 : grade == Grade.DOUBTFUL ? 0.6 : 0.97),
        findings,
        new PotentialDrawing(-600, STEP_MS * 1000, mean, deviation, 9));
  }

  /** A biphasic shape with a small first phase; the steepest point lies at 0. */
  private static double shape(double ms, double amplitudeUv) {
    double early = Math.exp(-Math.pow((ms + 0.28) / 0.12, 2)) * 0.12;
    double down = Math.exp(-Math.pow((ms + 0.09) / 0.085, 2)) * 0.62;
    double up = Math.exp(-Math.pow((ms - 0.10) / 0.13, 2)) * 0.42;
    return amplitudeUv * (early * -1 + down - up) / 1.02;
  }
}
