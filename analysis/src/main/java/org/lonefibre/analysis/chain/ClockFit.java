package org.lonefibre.analysis.chain;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Time in the export against time in the signal: a line between jumps.
 *
 * @param samplesPerS samples the machine took in a second of the player
 * @param jumps lengths of the jumps in samples; above 0 where samples came to it, below where lost
 * @param firstSample where time 0 of the signal lies, before the first jump
 */
record ClockFit(double samplesPerS, List<Double> jumps, double firstSample, List<Integer> after) {

  private static final double JUMP_SAMPLES = 0.6;

  static ClockFit of(List<TestSignal.Pair> pairs, List<PulseTimes.@Nullable Found> found) {
    List<double[]> points = new ArrayList<>();
    List<Integer> numbers = new ArrayList<>();
    for (int i = 0; i < found.size(); i++) {
      PulseTimes.Found pulse = found.get(i);
      if (pulse != null) {
        points.add(new double[] {pairs.get(i).timeS(), pulse.first()});
        numbers.add(i);
      }
    }
    double[] rates = new double[points.size() - 1];
    for (int i = 0; i < rates.length; i++) {
      rates[i] =
          (points.get(i + 1)[1] - points.get(i)[1]) / (points.get(i + 1)[0] - points.get(i)[0]);
    }
    double rough = RobustStatistics.median(rates);
    List<Double> jumps = new ArrayList<>();
    List<Integer> after = new ArrayList<>();
    List<Integer> starts = new ArrayList<>(List.of(0));
    for (int i = 0; i < rates.length; i++) {
      double jump = (rates[i] - rough) * (points.get(i + 1)[0] - points.get(i)[0]);
      if (Math.abs(jump) > JUMP_SAMPLES) {
        jumps.add(jump);
        after.add(numbers.get(i));
        starts.add(i + 1);
      }
    }
    starts.add(points.size());
    double above = 0;
    double below = 0;
    for (int s = 0; s + 1 < starts.size(); s++) {
      List<double[]> part = points.subList(starts.get(s), starts.get(s + 1));
      double meanX = part.stream().mapToDouble(p -> p[0]).average().orElse(0);
      double meanY = part.stream().mapToDouble(p -> p[1]).average().orElse(0);
      for (double[] p : part) {
        above += (p[0] - meanX) * (p[1] - meanY);
        below += (p[0] - meanX) * (p[0] - meanX);
      }
    }
    double slope = above / below;
    return new ClockFit(slope, jumps, points.get(0)[1] - slope * points.get(0)[0], after);
  }

  /** Where a time of the signal lies in the export, jumps before it counted. */
  double position(double timeS, List<TestSignal.Pair> pairs) {
    double at = firstSample + samplesPerS * timeS;
    for (int i = 0; i < jumps.size(); i++) {
      at += pairs.get(after.get(i)).timeS() < timeS ? jumps.get(i) : 0;
    }
    return at;
  }
}
