package org.lonefibre.analysis.controls;

/** How an upper limit is taken from one value a subject. */
public enum ControlMethod {
  /** Mean + 2 SD: most published sets of concentric needles. */
  MEAN_2_SD(10, "mean + 2 SD"),
  /** Mean + 2.5 SD: Kokubun et al. 2012. */
  MEAN_2_5_SD(10, "mean + 2.5 SD"),
  /** The 97.5th percentile at rank 0.975 (n + 1), CLSI EP28, nonparametric. */
  NONPARAMETRIC(120, "nonparametric 97.5 %"),
  /** Biweight estimate, CLSI EP28, robust; Horn, Pesce and Copeland 1998. */
  ROBUST(40, "robust 97.5 %");

  private final int fewest;
  private final String words;

  ControlMethod(int fewest, String words) {
    this.fewest = fewest;
    this.words = words;
  }

  /**
   * Subjects it needs: 120 and 40 by CLSI EP28; 10 for the parametric ones, the size of the
   * smallest published set (engineering choice).
   */
  public int fewest() {
    return fewest;
  }

  /** As printed. */
  public String words() {
    return words;
  }
}
