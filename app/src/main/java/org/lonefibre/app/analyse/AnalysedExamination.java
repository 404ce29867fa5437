package org.lonefibre.app.analyse;

import java.util.List;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.app.terminal.ExitCode;

/**
 * An examination as analysed, with what failed on the way.
 *
 * @param examination the result, refusals included
 * @param failures what made each refusal, in the order of the refusals
 * @param exitCode how the command ends
 */
public record AnalysedExamination(
    Examination examination, List<Throwable> failures, ExitCode exitCode) {

  /** Copies the failures. */
  public AnalysedExamination {
    failures = List.copyOf(failures);
  }

  /** Whether anything was analysed. */
  public boolean hasRecordings() {
    return examination.studies().stream().anyMatch(study -> !study.recordings().isEmpty());
  }
}
