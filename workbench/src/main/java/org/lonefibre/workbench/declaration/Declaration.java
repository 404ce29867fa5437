package org.lonefibre.workbench.declaration;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Visit;

/**
 * What a person declared of a study.
 *
 * @param subjectCode code of the person, never a name; null if none
 * @param ageYears age; null if unknown
 * @param visit the circumstances
 * @param parts muscles, sides and needles
 */
public record Declaration(
    @Nullable String subjectCode, @Nullable Double ageYears, Visit visit, List<Part> parts) {

  /** Copies the parts; refuses an age outside 0 to 130 years. */
  public Declaration {
    parts = List.copyOf(parts);
    if (ageYears != null && !(ageYears >= 0 && ageYears <= 130)) {
      throw new IllegalArgumentException("age must be 0 to 130 years, found " + ageYears);
    }
  }
}
