package org.lonefibre.app.practice;

import java.util.function.Consumer;
import org.lonefibre.model.endplate.EndPlateSettings;

/**
 * What a case for practice is an example of. Sizes and delays are engineering choices, such that
 * some are plain and some are not.
 */
enum PracticeKind {
  STEADY("one fibre", site -> site.follower(healthy(site))),
  RAISED(
      "one fibre with raised jitter",
      site -> site.follower(EndPlateSettings.gaussian(site.between("raised", 40, 75)))),
  BLOCKING(
      "one fibre that blocks",
      site ->
          site.follower(
              EndPlateSettings.gaussian(site.between("raised", 35, 65))
                  .withBlockingProbability(site.between("blocks", 0.1, 0.3)))),
  TWO_LATENCIES(
      "one fibre with two latencies (flip-flop)",
      site -> site.follower(healthy(site).withFlipFlop(site.between("flip", 90, 200), 0.3))),
  BEHIND(
      "two fibres, the second behind",
      site -> beside(site, 0.5, 0.9, site.between("delay", 160, 330))),
  AHEAD(
      "two fibres, the second ahead",
      site -> beside(site, 0.5, 0.9, -site.between("delay", 160, 330))),
  TOGETHER(
      "two fibres almost together",
      site -> beside(site, 0.6, 0.95, site.between("delay", 50, 110))),
  SMALL(
      "two fibres, the second small",
      site -> beside(site, 0.25, 0.4, site.between("delay", 120, 280))),
  DROPS_OUT(
      "two fibres, one of which blocks",
      site ->
          site.follower(healthy(site))
              .beside(
                  site.between("share", 0.5, 0.85),
                  site.between("delay", 140, 300),
                  EndPlateSettings.gaussian(45)
                      .withBlockingProbability(site.between("blocks", 0.12, 0.3))));

  private final String words;
  private final Consumer<PracticeSite> fill;

  PracticeKind(String words, Consumer<PracticeSite> fill) {
    this.words = words;
    this.fill = fill;
  }

  private static EndPlateSettings healthy(PracticeSite site) {
    return EndPlateSettings.gaussian(site.between("plate", 12, 24));
  }

  private static void beside(PracticeSite site, double least, double most, double delayUs) {
    site.follower(healthy(site))
        .beside(
            site.between("share", least, most),
            delayUs,
            EndPlateSettings.gaussian(site.between("second plate", 14, 32)));
  }

  String words() {
    return words;
  }

  void fill(PracticeSite site) {
    fill.accept(site);
  }
}
