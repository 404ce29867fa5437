package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.fibre.Contribution;

/**
 * What the trade holds of small and large recording surfaces (common practice, no source), each
 * beside what the model computes for two needles; also where they disagree.
 */
final class TradeClaims {

  private static final double NEAREST_MM = 0.05;
  private static final double NEAR_MM = 0.1;
  private static final double MIDDLE_MM = 0.3;
  private static final double FAR_MM = 1;
  private static final double MOST_HIGH_PASS_HZ = 5000;
  private static final String AGREES = "agrees";
  private static final String IN_PART = "agrees in part";
  private static final String DISAGREES = "disagrees";

  private final NeedleAnswer small;
  private final NeedleAnswer large;
  private final String smallName;
  private final String largeName;

  /** Of two answers, whichever has the smaller surface is the small one. */
  TradeClaims(NeedleAnswer a, NeedleAnswer b) {
    boolean inOrder = a.question().needle().coreAreaMm2() <= b.question().needle().coreAreaMm2();
    small = inOrder ? a : b;
    large = inOrder ? b : a;
    smallName = small.document().needle();
    largeName = large.document().needle();
  }

  String smallName() {
    return smallName;
  }

  String largeName() {
    return largeName;
  }

  List<NeedleDocument.Claim> all() {
    return List.of(wall(), shunt(), fallOff(), distant(), filtering(), noise());
  }

  private NeedleDocument.Claim wall() {
    List<Double> of = new ArrayList<>();
    for (NeedleAnswer answer : List.of(small, large)) {
      double most = 0;
      for (double mm : new double[] {NEAREST_MM, NEAR_MM, MIDDLE_MM}) {
        most = Math.max(most, answer.contribution(mm).insulationRatio());
      }
      of.add(most);
    }
    double most = Math.max(of.get(0), of.get(1));
    return new NeedleDocument.Claim(
        "wall",
        "The needle's body is a wall that raises the signal of a near fibre, up to twofold.",
        NeedleText.text("× %.2f", of.get(0)),
        NeedleText.text("× %.2f", of.get(1)),
        most > 2.02 || most < 1.2 ? DISAGREES : most < 1.6 ? IN_PART : AGREES,
        "Largest factor of the insulating body from 0.05 to 0.3 mm. Twofold is an endless plane;"
            + " a round shaft and a bevel give less.");
  }

  private NeedleDocument.Claim shunt() {
    Contribution a = small.contribution(NEAR_MM);
    Contribution b = large.contribution(NEAR_MM);
    return new NeedleDocument.Claim(
        "shunt",
        "A small surface shunts less.",
        NeedleText.text("core × %.2f, cannula × %.2f", a.metalRatio(), a.cannulaRatio()),
        NeedleText.text("core × %.2f, cannula × %.2f", b.metalRatio(), b.cannulaRatio()),
        a.metalRatio() > b.metalRatio()
            ? a.cannulaRatio() >= b.cannulaRatio() ? AGREES : IN_PART
            : Math.abs(a.metalRatio() - b.metalRatio()) < 0.02 ? IN_PART : DISAGREES,
        "Factors at 0.1 mm. The core's metal costs little once averaging over its surface is"
            + " counted apart; what shunts is the cannula's metal, the more the nearer its edge.");
  }

  private NeedleDocument.Claim fallOff() {
    double a = small.rawUv(NEAREST_MM) / small.rawUv(MIDDLE_MM);
    double b = large.rawUv(NEAREST_MM) / large.rawUv(MIDDLE_MM);
    return new NeedleDocument.Claim(
        "fall-off",
        "Amplitude falls off more steeply at a small surface.",
        NeedleText.text("%.1f : 1", a),
        NeedleText.text("%.1f : 1", b),
        a > b ? AGREES : DISAGREES,
        "Amplitude at 0.05 mm over 0.3 mm, unfiltered.");
  }

  private NeedleDocument.Claim distant() {
    double farSmall = small.rawUv(FAR_MM);
    double farLarge = large.rawUv(FAR_MM);
    double a = farSmall / small.rawUv(NEAR_MM);
    double b = farLarge / large.rawUv(NEAR_MM);
    return new NeedleDocument.Claim(
        "distant",
        "A large surface lets distant fibres in.",
        NeedleText.text("%.1f µV, %.1f %% of near", farSmall, 100 * a),
        NeedleText.text("%.1f µV, %.1f %% of near", farLarge, 100 * b),
        farLarge > farSmall ? AGREES : b > a ? IN_PART : DISAGREES,
        farLarge > farSmall
            ? "A fibre at 1 mm, and its share of one at 0.1 mm, unfiltered."
            : "A fibre at 1 mm, and its share of one at 0.1 mm, unfiltered. In absolute terms the"
                + " far fibre is no larger at the large surface; what the large surface loses is"
                + " near signal, so that near over far worsens.");
  }

  private NeedleDocument.Claim filtering() {
    double usual = small.question().highPassHz();
    double wanted = ratio(small, usual);
    String needed;
    if (ratio(large, 0) >= wanted) {
      needed = "none";
    } else if (ratio(large, MOST_HIGH_PASS_HZ) < wanted) {
      needed = "no high-pass up to 5 kHz does";
    } else {
      double low = 0;
      double high = MOST_HIGH_PASS_HZ;
      while (high - low > 5) {
        double middle = (low + high) / 2;
        if (ratio(large, middle) < wanted) {
          low = middle;
        } else {
          high = middle;
        }
      }
      needed =
          NeedleText.text(
              "%.1f kHz, which leaves %.0f %% of the near amplitude",
              high / 1000, 100 * large.filteredUv(NEAR_MM, high) / large.rawUv(NEAR_MM));
    }
    double kept = 100 * small.filteredUv(NEAR_MM, usual) / small.rawUv(NEAR_MM);
    return new NeedleDocument.Claim(
        "filtering",
        "A small surface needs less filtering.",
        NeedleText.text(
            "%s Hz gives near over far %.0f, leaves %.0f %%",
            NeedleText.number(usual), wanted, kept),
        needed,
        needed.equals("none") ? DISAGREES : AGREES,
        "High-pass of one pole with which a fibre at 0.1 mm stands as high over one at 1 mm as at"
            + " the small surface with its own filter.");
  }

  private static double ratio(NeedleAnswer answer, double highPassHz) {
    return answer.filteredUv(NEAR_MM, highPassHz) / answer.filteredUv(FAR_MM, highPassHz);
  }

  private NeedleDocument.Claim noise() {
    double a = small.document().noiseUvRms();
    double b = large.document().noiseUvRms();
    double near = small.rawUv(NEAR_MM) / a;
    double other = large.rawUv(NEAR_MM) / b;
    return new NeedleDocument.Claim(
        "noise",
        "A small surface is noisier.",
        NeedleText.text("%.1f µV rms, near signal %.0f times", a, near),
        NeedleText.text("%.1f µV rms, near signal %.0f times", b, other),
        a > b ? near < other ? AGREES : IN_PART : DISAGREES,
        "Thermal noise of the needle alone, each through its own filter; near signal is a fibre at"
            + " 0.1 mm. An amplifier adds its own.");
  }
}
