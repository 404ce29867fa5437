package org.lonefibre.app.analyse;

import java.io.IOException;
import java.util.List;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.signal.recording.RecordingFormatException;

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
    if (failure instanceof RecordingFormatException format) {
      return new Refused(
          new Refusal(file, FaultLine.oneLine(format.place()), FaultLine.oneLine(format.reason())),
          failure);
    }
    if (failure instanceof InputFault fault) {
      return new Refused(new Refusal(file, fault.place(), fault.reason()), failure);
    }
    String place = failure instanceof IOException ? "file" : "analysis";
    return new Refused(new Refusal(file, place, reason(file, failure)), failure);
  }

  /** The line of the failure without the path of the file, which is nobody's concern. */
  private static String reason(String file, Throwable failure) {
    String line = FaultLine.of(failure).text();
    int end = line.indexOf(file + ": ");
    return end < 0 ? line : line.substring(end + file.length() + 2);
  }
}
