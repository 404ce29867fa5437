package org.lonefibre.app.terminal;

/** How a command ended, as the shell sees it. */
public enum ExitCode {
  /** Done, whatever the findings. */
  DONE(0),
  /** A fault of the program. */
  OUR_FAULT(1),
  /** Input or usage at fault. */
  INPUT_AT_FAULT(2),
  /** Some files analysed, others refused. */
  SOME_REFUSED(3);

  private final int number;

  ExitCode(int number) {
    this.number = number;
  }

  /** The number given to the shell. */
  public int number() {
    return number;
  }
}
