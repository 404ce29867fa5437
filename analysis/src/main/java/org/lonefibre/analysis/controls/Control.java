package org.lonefibre.analysis.controls;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;

/**
 * The signals of one subject in one muscle, with one needle and activation, as they were accepted
 * before any result was known.
 *
 * @param subject code of the subject
 * @param ageYears age; null if not given
 * @param muscle muscle key
 * @param needle needle key
 * @param activation voluntary or stimulated
 * @param grading version of the grading that accepted the signals; empty if people did
 * @param jittersUs jitter of each signal, ascending
 */
public record Control(
    String subject,
    @Nullable Double ageYears,
    String muscle,
    String needle,
    Activation activation,
    String grading,
    List<Double> jittersUs) {

  /** Sorts the jitters. */
  public Control {
    jittersUs = jittersUs.stream().sorted().toList();
    if (jittersUs.isEmpty()) {
      throw new IllegalArgumentException("a control must have a signal, found none: " + subject);
    }
  }

  /**
   * One value of the subject.
   *
   * @param what {@code mean}, {@code median} or {@code single signal}
   */
  public double valueUs(String what) {
    return switch (what) {
      case "mean" -> meanUs();
      case "median" -> medianUs();
      default -> rankedUs();
    };
  }

  /** Mean of its jitters. */
  double meanUs() {
    return jittersUs.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
  }

  /** Median of its jitters. */
  double medianUs() {
    int n = jittersUs.size();
    return (jittersUs.get((n - 1) / 2) + jittersUs.get(n / 2)) / 2;
  }

  /**
   * The highest value that nine in ten of the signals reach or stay below: the 18th of 20, the 27th
   * of 30.
   */
  double rankedUs() {
    return jittersUs.get(Math.max(1, (9 * jittersUs.size()) / 10) - 1);
  }
}
