package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;

/**
 * The circumstances of the examination, as declared.
 *
 * @param date date as written; null if none
 * @param examiner examiner as written; null if none
 * @param temperatureDegC skin temperature over the muscle; null if not recorded
 * @param medication medication with time of last dose, as written; null if none
 * @param note note as written; null if none
 */
public record Visit(
    @Nullable String date,
    @Nullable String examiner,
    @Nullable Double temperatureDegC,
    @Nullable String medication,
    @Nullable String note) {

  /** Nothing declared. */
  public static final Visit UNDECLARED = new Visit(null, null, null, null, null);
}
