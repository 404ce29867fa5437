package org.lonefibre.model.simulation;

/** What of a recording comes from the sample muscle about a solved needle. */
public enum SampleMuscleUse {
  /** Nothing: near fibres are wished for, distant ones lie in a ring. */
  NONE,
  /** The background: near fibres are wished for. */
  BACKGROUND,
  /** All fibres, as they lie. */
  WHOLE
}
