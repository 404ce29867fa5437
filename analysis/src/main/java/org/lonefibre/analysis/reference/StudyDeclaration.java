package org.lonefibre.analysis.reference;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;

/**
 * What was declared of a study, as far as its comparison needs it.
 *
 * @param muscle muscle key or short name; null if not given
 * @param ageYears age of the person; null if not given
 * @param needle needle key, or the name of a needle of the laboratory's own; null if not given
 * @param activation how the muscle was made to contract
 * @param activationOrigin whether a person said so
 * @param limitsSetId the limit set asked for; null to take the one that fits
 * @param highPassHz high-pass in force; null if not known
 * @param temperatureDegC skin temperature over the muscle; null if not recorded
 */
public record StudyDeclaration(
    @Nullable String muscle,
    @Nullable Double ageYears,
    @Nullable String needle,
    Activation activation,
    Origin activationOrigin,
    @Nullable String limitsSetId,
    @Nullable Double highPassHz,
    @Nullable Double temperatureDegC) {

  /** Where a declaration comes from. */
  public enum Origin {
    /** A person gave it. */
    DECLARED,
    /** Nobody did; it was assumed. */
    ASSUMED
  }

  /** A declaration without a temperature. */
  public StudyDeclaration(
      @Nullable String muscle,
      @Nullable Double ageYears,
      @Nullable String needle,
      Activation activation,
      Origin activationOrigin,
      @Nullable String limitsSetId,
      @Nullable Double highPassHz) {
    this(muscle, ageYears, needle, activation, activationOrigin, limitsSetId, highPassHz, null);
  }

  /** Refuses an age outside 0 to 130 years. */
  public StudyDeclaration {
    if (ageYears != null && !(ageYears >= 0 && ageYears <= 130)) {
      throw new IllegalArgumentException("age must be 0 to 130 years, found " + ageYears);
    }
  }
}
