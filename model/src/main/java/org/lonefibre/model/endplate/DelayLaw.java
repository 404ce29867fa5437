package org.lonefibre.model.endplate;

/** How the delay of an end-plate varies from discharge to discharge. */
public enum DelayLaw {
  /** Not at all: the fibre is stimulated directly, or nothing but conduction varies. */
  CONSTANT,
  /** Gaussian ("mostly Gaussian": Thiele and Stalberg 1974, abstract). */
  GAUSSIAN,
  /**
   * An end-plate potential of varying quantal content rises to a threshold; it blocks when it stays
   * below, so safety factor and blocking are one.
   */
  THRESHOLD,
  /** Gamma of shape 2.5: skewed to late, as no other law here; an engineering choice. */
  GAMMA
}
