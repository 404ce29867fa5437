package org.lonefibre.model.simulation;

/** What makes the muscle active in a simulated study. */
public enum SimulatedActivation {
  /** The subject. */
  VOLUNTARY,
  /** Stimuli to the nerve. */
  STIMULATED
}
