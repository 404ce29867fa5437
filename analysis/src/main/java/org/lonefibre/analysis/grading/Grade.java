package org.lonefibre.analysis.grading;

/** Whether one muscle fibre made a potential. */
public enum Grade {
  /** One fibre. */
  SINGLE_FIBRE,
  /** The recording does not allow an answer. */
  DOUBTFUL,
  /** More than one fibre: no jitter is quoted. */
  COMPOSITE,
  /** Not judged, for the reason its findings give. */
  UNGRADED
}
