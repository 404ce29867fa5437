package org.lonefibre.analysis.study;

import java.util.List;

/**
 * Sweeps as they were recorded (conditioned), superimposed on the trigger potential or stimulus.
 *
 * @param startMs time of the first value from the trigger, in ms
 * @param stepMs time between values, in ms
 * @param sweeps numbers of the sweeps drawn, from 1
 * @param valuesUv one list of values a sweep, all of one length
 */
public record SweepDrawing(
    double startMs, double stepMs, List<Integer> sweeps, List<List<Double>> valuesUv) {

  /** Copies the lists. */
  public SweepDrawing {
    sweeps = List.copyOf(sweeps);
    valuesUv = valuesUv.stream().map(List::copyOf).toList();
  }
}
