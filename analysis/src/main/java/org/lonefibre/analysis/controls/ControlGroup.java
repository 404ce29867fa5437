package org.lonefibre.analysis.controls;

import java.util.List;
import org.lonefibre.analysis.study.Activation;

/**
 * Limits of one muscle, needle and activation.
 *
 * @param muscle muscle key
 * @param needle needle key
 * @param activation voluntary or stimulated
 * @param subjects number of subjects
 * @param limits a limit a method, for the centre and the single signal
 * @param byAge limits by age; empty where the data do not carry them
 * @param warnings what to know about them
 */
public record ControlGroup(
    String muscle,
    String needle,
    Activation activation,
    int subjects,
    List<OwnLimit> limits,
    List<AgeLimit> byAge,
    List<String> warnings) {

  /** Copies the lists. */
  public ControlGroup {
    limits = List.copyOf(limits);
    byAge = List.copyOf(byAge);
    warnings = List.copyOf(warnings);
  }

  /** The limit of one thing by one method. */
  public OwnLimit limit(String what, ControlMethod method) {
    return limits.stream()
        .filter(limit -> limit.what().equals(what) && limit.method() == method)
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no limit of " + what));
  }
}
