package org.lonefibre.analysis.potential;

/** Whether a potential is there in one discharge. */
public enum Presence {
  /** It is there; it has an arrival time. */
  PRESENT,
  /** It is not there. */
  ABSENT,
  /** It cannot be judged. */
  UNCERTAIN;

  /** Whether any is absent. */
  static boolean isAnyAbsent(Presence[] presences) {
    for (Presence presence : presences) {
      if (presence == ABSENT) {
        return true;
      }
    }
    return false;
  }
}
