package org.lonefibre.workbench.server;

import java.io.Serial;

/** A request that is not served, with its status and one sentence for the person. */
public final class Refusal extends RuntimeException {

  @Serial private static final long serialVersionUID = 1L;

  private final int status;

  /**
   * @param status HTTP status
   * @param sentence what is wrong and what to do; without paths and identities
   */
  public Refusal(int status, String sentence) {
    super(sentence);
    this.status = status;
  }

  /** HTTP status. */
  public int status() {
    return status;
  }

  /** The sentence. */
  public String sentence() {
    return String.valueOf(getMessage());
  }
}
