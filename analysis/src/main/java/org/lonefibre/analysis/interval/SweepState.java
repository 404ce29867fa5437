package org.lonefibre.analysis.interval;

/** What a sweep says about one pair or end-plate. */
public enum SweepState {
  /** Both potentials are there; the interval counts. */
  PRESENT,
  /** The trigger is there, the paired potential is absent. */
  BLOCKED,
  /** The paired potential is there, the trigger is absent. */
  TRIGGER_ABSENT,
  /** Another unit or an artefact covers the expected place: presence cannot be judged. */
  OBSCURED,
  /** Left out by a person or a finding. */
  EXCLUDED
}
