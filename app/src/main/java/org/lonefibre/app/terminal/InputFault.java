package org.lonefibre.app.terminal;

import java.io.IOException;
import java.io.Serial;

/**
 * Input or usage at fault: where, what was expected, what was found, what to do. Its message is the
 * one line shown to the user.
 */
public final class InputFault extends IOException {

  @Serial private static final long serialVersionUID = 1L;

  private final String place;
  private final String reason;

  /**
   * @param file the file, option or command at fault
   * @param place where in it; empty if all of it
   * @param expected what should stand there
   * @param found what stands there
   * @param remedy what the user can do
   */
  public InputFault(String file, String place, String expected, String found, String remedy) {
    super(
        file
            + ": "
            + (place.isEmpty() ? "" : place + ": ")
            + "expected "
            + expected
            + ", found "
            + FaultLine.oneLine(found)
            + "; "
            + remedy);
    this.place = place;
    this.reason = "expected " + expected + ", found " + FaultLine.oneLine(found) + "; " + remedy;
  }

  /** Where in the file; empty if all of it. */
  public String place() {
    return place;
  }

  /** What was expected, what was found, what to do. */
  public String reason() {
    return reason;
  }
}
