package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.Decision.Mark;

/** The sweeps of one signal: what was found, and what a person says of each. */
final class RevisedSweeps {

  /**
   * A sweep as found.
   *
   * @param value interval or latency; null unless present
   */
  record Found(
      int sweep, double timeS, @Nullable Double value, @Nullable Double error, SweepState state) {}

  private final List<Found> found;
  private final Mark[] marks;

  RevisedSweeps(List<Found> found) {
    this.found = List.copyOf(found);
    this.marks = new Mark[found.size()];
    java.util.Arrays.fill(marks, Mark.AUTOMATIC);
  }

  List<Found> found() {
    return found;
  }

  Mark markOf(int index) {
    return marks[index];
  }

  void mark(int index, Mark mark) {
    marks[index] = mark;
  }

  /** Marks a range of sweeps; whether there is any such sweep. */
  boolean mark(int firstSweep, int lastSweep, Mark mark) {
    boolean any = false;
    for (int i = 0; i < marks.length; i++) {
      int sweep = found.get(i).sweep();
      if (sweep >= firstSweep && sweep <= lastSweep) {
        marks[i] = mark;
        any = true;
      }
    }
    return any;
  }

  void markTimes(double startS, double endS, Mark mark) {
    for (int i = 0; i < marks.length; i++) {
      double timeS = found.get(i).timeS();
      if (timeS >= startS && timeS < endS) {
        marks[i] = mark;
      }
    }
  }

  List<Integer> listMarked() {
    List<Integer> marked = new ArrayList<>();
    for (int i = 0; i < marks.length; i++) {
      if (marks[i] != Mark.AUTOMATIC) {
        marked.add(found.get(i).sweep());
      }
    }
    return marked;
  }

  /**
   * The series to be measured.
   *
   * @param gapsS where time jumps: no sweep is continuous with one before a jump
   * @param scaleErrorRatio what overlap leaves unknown of the scale
   */
  IntervalSeries series(
      IntervalSeries.Kind kind,
      List<double[]> gapsS,
      double stimulusErrorUs,
      double scaleErrorRatio) {
    List<SweepInterval> sweeps = new ArrayList<>();
    for (int i = 0; i < marks.length; i++) {
      Found one = found.get(i);
      SweepState state =
          switch (marks[i]) {
            case AUTOMATIC -> one.state();
            case EXCLUDED -> SweepState.EXCLUDED;
            case BLOCKED -> SweepState.BLOCKED;
            case OBSCURED -> SweepState.OBSCURED;
          };
      boolean present = state == SweepState.PRESENT;
      boolean continuous = i > 0 && !isGapBetween(gapsS, found.get(i - 1).timeS(), one.timeS());
      sweeps.add(
          new SweepInterval(
              one.sweep(),
              one.timeS(),
              present ? one.value() : null,
              present ? one.error() : null,
              state,
              continuous ? Math.max(0, 1000 * (one.timeS() - found.get(i - 1).timeS())) : null,
              continuous));
    }
    return new IntervalSeries(kind, sweeps, stimulusErrorUs, scaleErrorRatio);
  }

  private static boolean isGapBetween(List<double[]> gapsS, double fromS, double toS) {
    return gapsS.stream().anyMatch(gap -> gap[0] > fromS && gap[0] <= toS);
  }
}
