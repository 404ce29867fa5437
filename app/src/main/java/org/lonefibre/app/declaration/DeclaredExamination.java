package org.lonefibre.app.declaration;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;

/**
 * An examination to be analysed, as declared.
 *
 * @param subject the person examined
 * @param visit the circumstances
 * @param studies the studies, at least one
 * @param chainTest the kept test of the machine and its export; null if none was named
 */
public record DeclaredExamination(
    Subject subject, Visit visit, List<DeclaredStudy> studies, @Nullable Path chainTest) {

  /** Copies the studies. */
  public DeclaredExamination {
    studies = List.copyOf(studies);
  }
}
