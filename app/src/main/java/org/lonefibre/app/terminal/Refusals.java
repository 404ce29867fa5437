package org.lonefibre.app.terminal;

import java.io.IOException;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.signal.recording.RecordingFormatException;

/** Why a file was refused, as documents list it. Thread rule: safe, keeps nothing. */
public final class Refusals {

  private Refusals() {}

  /** The refusal of a file that failed; control characters are made visible. */
  public static Refusal of(String file, Throwable failure) {
    if (failure instanceof RecordingFormatException format) {
      return new Refusal(
          file, FaultLine.oneLine(format.place()), FaultLine.oneLine(format.reason()));
    }
    if (failure instanceof InputFault fault) {
      return new Refusal(file, fault.place(), fault.reason());
    }
    String place = failure instanceof IOException ? "file" : "analysis";
    return new Refusal(file, place, reason(file, failure));
  }

  /** The line of the failure without the path of the file, which is nobody's concern. */
  private static String reason(String file, Throwable failure) {
    String line = FaultLine.of(failure).text();
    int end = line.indexOf(file + ": ");
    return end < 0 ? line : line.substring(end + file.length() + 2);
  }
}
