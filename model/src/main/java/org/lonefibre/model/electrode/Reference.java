package org.lonefibre.model.electrode;

/** What the core is measured against. */
public enum Reference {
  /** The needle's own bare metal shaft. */
  CANNULA,
  /** An electrode far away; the shaft is insulated. */
  REMOTE
}
