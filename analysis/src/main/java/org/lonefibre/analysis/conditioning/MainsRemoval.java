package org.lonefibre.analysis.conditioning;

/** Whether the frequency of the mains, and its multiples, is taken out. */
public enum MainsRemoval {
  /** Nothing is taken out: a notch rings, so it is used only on request. */
  OFF(0),
  /** 50 Hz and its multiples. */
  HZ_50(50),
  /** 60 Hz and its multiples. */
  HZ_60(60);

  private final int hz;

  MainsRemoval(int hz) {
    this.hz = hz;
  }

  /** The mains frequency; 0 if nothing is taken out. */
  public double frequencyHz() {
    return hz;
  }
}
