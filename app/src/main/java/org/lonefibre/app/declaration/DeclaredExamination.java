package org.lonefibre.app.declaration;

import java.util.List;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;

/**
 * An examination to be analysed, as declared.
 *
 * @param subject the person examined
 * @param visit the circumstances
 * @param studies the studies, at least one
 */
public record DeclaredExamination(Subject subject, Visit visit, List<DeclaredStudy> studies) {

  /** Copies the studies. */
  public DeclaredExamination {
    studies = List.copyOf(studies);
  }
}
