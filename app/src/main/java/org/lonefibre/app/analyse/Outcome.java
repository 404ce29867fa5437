package org.lonefibre.app.analyse;

import java.util.List;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.Refusals;

/** What became of a declared recording. */
sealed interface Outcome {

  /** It was analysed. */
  record Analysed(List<RecordingResult> sites) implements Outcome {
    public Analysed {
      sites = List.copyOf(sites);
    }
  }

  /**
   * It was refused.
   *
   * @param refusal as it stands in the document
   * @param failure what happened
   */
  record Refused(Refusal refusal, Throwable failure) implements Outcome {

    /** Whether the program is at fault, not the file. */
    ExitCode exitCode() {
      return FaultLine.of(failure).exitCode();
    }
  }

  /** The refusal of a file that failed. */
  static Refused refused(String file, Throwable failure) {
    return new Refused(Refusals.of(file, failure), failure);
  }
}
