package org.lonefibre.signal.recording;

import java.util.List;

/**
 * Where a finding can be seen: stretches of time, sweeps, and the numbers it rests on.
 *
 * @param stretches stretches of the recording
 * @param sweeps numbers of sweeps, from 1
 * @param quantities numbers with their unit
 */
public record Evidence(List<Stretch> stretches, List<Integer> sweeps, List<Quantity> quantities) {

  /** Nothing to point at. */
  public static final Evidence NONE = new Evidence(List.of(), List.of(), List.of());

  /**
   * A stretch of a recording.
   *
   * @param startS start since the start of the recording, in seconds
   * @param endS end, in seconds
   */
  public record Stretch(double startS, double endS) {}

  /**
   * A number that a finding rests on.
   *
   * @param name what it is, in the trade's words
   * @param value its value, finite
   * @param unit its unit, empty if it has none
   */
  public record Quantity(String name, double value, String unit) {}

  /** Copies its lists. */
  public Evidence {
    stretches = List.copyOf(stretches);
    sweeps = List.copyOf(sweeps);
    quantities = List.copyOf(quantities);
  }

  /** Only stretches. */
  public static Evidence ofStretches(List<Stretch> stretches) {
    return new Evidence(stretches, List.of(), List.of());
  }

  /** Only sweeps. */
  public static Evidence ofSweeps(List<Integer> sweeps) {
    return new Evidence(List.of(), sweeps, List.of());
  }

  /** Only numbers. */
  public static Evidence of(Quantity... quantities) {
    return new Evidence(List.of(), List.of(), List.of(quantities));
  }
}
