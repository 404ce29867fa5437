package org.lonefibre.analysis.study;

import java.util.List;

/**
 * The shape of a potential, aligned on its arrival over all sweeps in which it is present.
 *
 * @param startUs time of the first value from the arrival, in us
 * @param stepUs time between values, in us
 * @param meanUv mean shape
 * @param sdUv standard deviation from sweep to sweep at each point
 * @param noiseUv standard deviation that noise alone explains
 */
public record PotentialDrawing(
    double startUs, double stepUs, List<Double> meanUv, List<Double> sdUv, double noiseUv) {

  /** Copies the lists. */
  public PotentialDrawing {
    meanUv = List.copyOf(meanUv);
    sdUv = List.copyOf(sdUv);
  }
}
