package org.lonefibre.report.document;

import java.util.List;

/**
 * What is not in the statistics, and why.
 *
 * @param what the signal, site or file
 * @param standing left out or unmeasurable
 * @param figure the number that is kept for the record; empty if there is none
 * @param reasons in words
 */
public record LeftOut(String what, String standing, String figure, List<String> reasons) {

  /** Copies the reasons. */
  public LeftOut {
    reasons = List.copyOf(reasons);
  }
}
