package org.lonefibre.analysis.study;

/** How the muscle was made to contract. */
public enum Activation {
  /** By the subject; intervals between potentials. */
  VOLUNTARY,
  /** By stimuli; latencies. */
  STIMULATED
}
