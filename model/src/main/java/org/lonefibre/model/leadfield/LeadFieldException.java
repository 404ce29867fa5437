package org.lonefibre.model.leadfield;

import java.io.Serial;

/** A lead field that could not be had as exactly as was asked. */
public final class LeadFieldException extends RuntimeException {

  @Serial private static final long serialVersionUID = 1L;

  /**
   * @param message what failed, by how much, and what was allowed
   */
  public LeadFieldException(String message) {
    super(message);
  }
}
