package org.lonefibre.validation.campaign;

import java.util.List;
import org.lonefibre.signal.random.RandomStream;

/**
 * Studies of 20 signals drawn from many: how often they would cross a limit.
 *
 * @param centreUs limit of the mean
 * @param singleUs limit of single signals
 * @param seed of the draws
 */
record DrawnStudies(double centreUs, double singleUs, long seed) {

  /** Signals of a study. */
  static final int SIGNALS = 20;

  private static final int STUDIES = 2000;
  private static final int RAISED = 3;

  /** The published limits of the extensor digitorum to which a needle would be held. */
  static DrawnStudies heldTo(String needle, long seed) {
    return needle.equals("single-fibre")
        ? new DrawnStudies(35.4, 51.3, seed)
        : new DrawnStudies(30, 43, seed);
  }

  /** Where the limits come from. */
  static String source() {
    return """
        Limits: extensor digitorum, 35.4 and 51.3 us (single-fibre, 40 years, Gilchrist et al. 1992, second-hand), 30 and 43 us (concentric, Stalberg et al. 2016, abstract). Studies: 2,000 of 20
        signals each, drawn from those that are left; crossing: mean above the first, or 3 of 20 signals above the second or with a block.
        """;
  }

  /** Share of studies beyond the limits, as text; too few signals give none. */
  String crossing(List<PairLook> pairs) {
    return pairs.size() < SIGNALS ? "too few" : IntervalCampaign.tenth(crossingPercent(pairs));
  }

  private double crossingPercent(List<PairLook> pairs) {
    RandomStream random = RandomStream.of(seed).child("studies");
    int crossing = 0;
    for (int s = 0; s < STUDIES; s++) {
      double sum = 0;
      int raised = 0;
      for (int i = 0; i < SIGNALS; i++) {
        PairLook pair = pairs.get(random.below(pairs.size()));
        sum += pair.measuredUs();
        raised += pair.measuredUs() > singleUs || pair.blocks() > 0 ? 1 : 0;
      }
      crossing += sum / SIGNALS > centreUs || raised >= RAISED ? 1 : 0;
    }
    return 100.0 * crossing / STUDIES;
  }
}
