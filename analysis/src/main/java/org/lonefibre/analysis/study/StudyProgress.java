package org.lonefibre.analysis.study;

import java.util.List;

/**
 * What a study can say already, and what more signals could change. Facts, never an order: whether
 * to go on is for the physician.
 *
 * @param usualSignals signals a study of this limit set usually has
 * @param signals signals so far
 * @param facts one a criterion of the set
 */
public record StudyProgress(int usualSignals, int signals, List<ProgressFact> facts) {

  /** Copies the facts. */
  public StudyProgress {
    facts = List.copyOf(facts);
  }
}
