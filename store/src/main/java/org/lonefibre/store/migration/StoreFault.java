package org.lonefibre.store.migration;

import java.io.IOException;
import java.io.Serial;

/**
 * The store cannot be used as it is: what was expected, what was found, what to do, in one line.
 */
public final class StoreFault extends IOException {

  @Serial private static final long serialVersionUID = 1L;

  /** A fault with its line. */
  public StoreFault(String where, String expected, String found, String remedy) {
    super(where + ": expected " + expected + ", found " + found + "; " + remedy);
  }
}
