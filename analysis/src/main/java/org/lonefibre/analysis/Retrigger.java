package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Intervals from another potential of the unit, from those that were kept.
 *
 * <pre>to X from new = to X from former - to new from former</pre>
 *
 * <p>The error of the former trigger cancels: its typical square is taken off those of both. A
 * sweep lies where the new trigger arrived; where it did not, at its usual place.
 */
final class Retrigger {

  private final String former;
  private final double formerErrorUs;
  private final Map<String, RevisedSweeps> found;

  Retrigger(String former, @Nullable Double formerErrorUs, Map<String, RevisedSweeps> found) {
    this.former = former;
    this.formerErrorUs = formerErrorUs == null ? 0 : formerErrorUs;
    this.found = found;
  }

  /**
   * The sweeps under a trigger; marks of a person stay with the pair of the same two potentials, or
   * of the same paired potential.
   */
  Map<String, RevisedSweeps> to(String wanted, String inForce, Map<String, RevisedSweeps> marked) {
    Map<String, RevisedSweeps> made = new LinkedHashMap<>();
    if (wanted.equals(former)) {
      found.forEach((id, sweeps) -> made.put(id, new RevisedSweeps(sweeps.found())));
    } else {
      RevisedSweeps pivot = found.get(former + "-" + wanted);
      if (pivot == null) {
        return marked;
      }
      made.put(wanted + "-" + former, new RevisedSweeps(reversed(pivot.found())));
      found.forEach(
          (id, sweeps) -> {
            String potential = id.substring(former.length() + 1);
            if (!potential.equals(wanted)) {
              made.put(
                  wanted + "-" + potential,
                  new RevisedSweeps(shifted(sweeps.found(), pivot.found())));
            }
          });
    }
    made.forEach(
        (id, sweeps) -> {
          String potential = id.substring(wanted.length() + 1);
          RevisedSweeps before =
              marked.get(inForce + "-" + (potential.equals(inForce) ? wanted : potential));
          for (int i = 0; before != null && i < sweeps.found().size(); i++) {
            sweeps.mark(i, before.markOf(i));
          }
        });
    return made;
  }

  private static List<RevisedSweeps.Found> reversed(List<RevisedSweeps.Found> sweeps) {
    double usualUs = usualUs(sweeps);
    return sweeps.stream()
        .map(
            one ->
                new RevisedSweeps.Found(
                    one.sweep(),
                    movedS(one, one, usualUs),
                    one.value() == null ? null : Double.valueOf(-one.value()),
                    one.error(),
                    switch (one.state()) {
                      case BLOCKED -> SweepState.TRIGGER_ABSENT;
                      case TRIGGER_ABSENT -> SweepState.BLOCKED;
                      default -> one.state();
                    }))
        .toList();
  }

  private List<RevisedSweeps.Found> shifted(
      List<RevisedSweeps.Found> sweeps, List<RevisedSweeps.Found> pivot) {
    List<RevisedSweeps.Found> made = new ArrayList<>();
    double usualUs = usualUs(pivot);
    for (int i = 0; i < sweeps.size(); i++) {
      RevisedSweeps.Found one = sweeps.get(i);
      RevisedSweeps.Found from = pivot.get(i);
      Double value = one.value();
      Double zero = from.value();
      Double error = one.error();
      Double zeroError = from.error();
      if (value != null && zero != null && error != null && zeroError != null) {
        double square = error * error + zeroError * zeroError - 2 * formerErrorUs * formerErrorUs;
        double least = 0.25 * (error * error + zeroError * zeroError);
        made.add(
            new RevisedSweeps.Found(
                one.sweep(),
                movedS(one, from, usualUs),
                value - zero,
                Math.sqrt(Math.max(least, square)),
                SweepState.PRESENT));
      } else {
        made.add(
            new RevisedSweeps.Found(
                one.sweep(),
                movedS(one, from, usualUs),
                null,
                null,
                state(one.state(), from.state())));
      }
    }
    return made;
  }

  private static double movedS(RevisedSweeps.Found one, RevisedSweeps.Found pivot, double usualUs) {
    Double byUs = pivot.value();
    return one.timeS() + 1e-6 * (byUs == null ? usualUs : byUs);
  }

  private static double usualUs(List<RevisedSweeps.Found> pivot) {
    double[] values =
        pivot.stream()
            .map(RevisedSweeps.Found::value)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .toArray();
    return values.length == 0 ? 0 : RobustStatistics.median(values);
  }

  private static SweepState state(SweepState paired, SweepState trigger) {
    if (trigger == SweepState.PRESENT && paired == SweepState.BLOCKED) {
      return SweepState.BLOCKED;
    }
    if (trigger == SweepState.BLOCKED && paired == SweepState.PRESENT) {
      return SweepState.TRIGGER_ABSENT;
    }
    return SweepState.OBSCURED;
  }

  /** Sweeps moved by their own interval; those without one are not drawn. */
  static SweepDrawing aligned(SweepDrawing drawing, RevisedSweeps pivot, double offsetMs) {
    Map<Integer, Double> zeroUs = new HashMap<>();
    for (RevisedSweeps.Found one : pivot.found()) {
      Double value = one.value();
      if (value != null) {
        zeroUs.put(one.sweep(), value);
      }
    }
    List<Integer> sweeps = new ArrayList<>();
    List<List<Double>> rows = new ArrayList<>();
    for (int i = 0; i < drawing.sweeps().size(); i++) {
      Double zero = zeroUs.get(drawing.sweeps().get(i));
      if (zero != null) {
        sweeps.add(drawing.sweeps().get(i));
        rows.add(moved(drawing.valuesUv().get(i), (zero / 1000 - offsetMs) / drawing.stepMs()));
      }
    }
    return new SweepDrawing(drawing.startMs() - offsetMs, drawing.stepMs(), sweeps, rows);
  }

  /** Values some steps later, straight lines between neighbours. */
  private static List<Double> moved(List<Double> row, double steps) {
    List<Double> moved = new ArrayList<>();
    for (int k = 0; k < row.size(); k++) {
      double at = Math.max(0, Math.min(row.size() - 1.0, k + steps));
      int low = (int) Math.min(row.size() - 2.0, Math.floor(at));
      double value =
          row.size() < 2
              ? row.get(0)
              : row.get(low) + (at - low) * (row.get(low + 1) - row.get(low));
      moved.add(Math.round(10 * value) / 10.0);
    }
    return moved;
  }
}
