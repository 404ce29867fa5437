package org.lonefibre.analysis.study;

/** Side of the body. */
public enum Side {
  /** Left. */
  LEFT,
  /** Right. */
  RIGHT
}
