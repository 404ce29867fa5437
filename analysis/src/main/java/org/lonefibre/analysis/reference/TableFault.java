package org.lonefibre.analysis.reference;

import java.io.IOException;
import java.io.Serial;

/**
 * A table a person wrote cannot be used: which file, which line, what was expected, what was found,
 * what to do, in one line.
 */
public final class TableFault extends IOException {

  @Serial private static final long serialVersionUID = 1L;

  /**
   * @param file name of the file
   * @param line line at fault, from 1; 0 if all of it
   * @param column column at fault; empty if all of the line
   */
  public TableFault(
      String file, long line, String column, String expected, String found, String remedy) {
    super(
        file
            + (line == 0 ? "" : ": line " + line)
            + (column.isEmpty() ? "" : ", " + column)
            + ": expected "
            + expected
            + ", found "
            + found
            + "; "
            + remedy);
  }
}
