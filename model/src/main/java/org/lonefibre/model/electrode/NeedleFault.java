package org.lonefibre.model.electrode;

import java.io.Serial;

/** A needle that cannot be made: the key at fault, its value, and what is allowed. */
public final class NeedleFault extends IllegalArgumentException {

  @Serial private static final long serialVersionUID = 1L;

  private final String key;
  private final String found;
  private final String expected;

  /**
   * @param key the key at fault, as in a needle file
   * @param found its value, or "nothing"
   * @param expected what is allowed, with unit
   */
  public NeedleFault(String key, String found, String expected) {
    super(key + " must be " + expected + ", found " + found);
    this.key = key;
    this.found = found;
    this.expected = expected;
  }

  /** The key at fault. */
  public String key() {
    return key;
  }

  /** Its value. */
  public String found() {
    return found;
  }

  /** What is allowed. */
  public String expected() {
    return expected;
  }
}
