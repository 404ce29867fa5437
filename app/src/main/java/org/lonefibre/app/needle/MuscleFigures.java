package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.lonefibre.report.figure.Axis;
import org.lonefibre.report.figure.Curve;
import org.lonefibre.report.figure.Curve.Stroke;
import org.lonefibre.report.figure.CurveFigure;
import org.lonefibre.report.figure.Figure;

/** Background of a sample muscle and what a filter costs, over the filter. */
final class MuscleFigures {

  private static final double HIGHEST_KHZ = 5;

  private MuscleFigures() {}

  /** Background over the cut-off, all needles in one. */
  static Figure background(List<NeedleAnswer> answers) {
    List<Curve> curves = new ArrayList<>();
    double high = 0;
    for (NeedleAnswer answer : answers) {
      MusclePart.BackgroundPart part = answer.document().muscle().background();
      double[] across = part.cuts().stream().mapToDouble(c -> c.highPassHz() / 1000).toArray();
      double[] up = part.cuts().stream().mapToDouble(MusclePart.Cut::backgroundUv).toArray();
      high = Math.max(high, up[0]);
      curves.add(
          new Curve(
              NeedleText.text("%s, %s", answer.document().needle(), needed(part)),
              curves.isEmpty() ? Stroke.SOLID : Stroke.DASHED,
              across,
              up));
    }
    curves.add(
        new Curve(
            NeedleText.text("target, %s µV", NeedleText.number(NeedleInMuscle.TARGET_UV)),
            Stroke.GUIDE,
            new double[] {0, HIGHEST_KHZ},
            new double[] {NeedleInMuscle.TARGET_UV, NeedleInMuscle.TARGET_UV}));
    return CurveFigure.draw(
        NeedleText.text(
            "Background of a healthy sample muscle: fibres beyond %s mm",
            NeedleText.number(NeedleInMuscle.BEYOND_MM)),
        new Axis("high-pass (kHz)", Axis.Spacing.LINEAR, 0, HIGHEST_KHZ),
        new Axis(
            "background (µV rms)",
            Axis.Spacing.LINEAR,
            0,
            1.15 * Math.max(high, NeedleInMuscle.TARGET_UV)),
        curves);
  }

  /** What the filter leaves of a near potential. */
  static Figure cost(List<NeedleAnswer> answers) {
    return overFilter(
        answers,
        "What a high-pass leaves of a potential at 0.1 mm",
        "part of the amplitude left",
        1,
        MusclePart.Cut::keptRatio);
  }

  /** How exactly a near potential can be timed against background and thermal noise. */
  static Figure timing(List<NeedleAnswer> answers) {
    return overFilter(
        answers,
        "Timing error of a potential at 0.1 mm",
        "background and thermal noise over the steepest slope (µs)",
        0,
        MusclePart.Cut::timingErrorUs);
  }

  private static Figure overFilter(
      List<NeedleAnswer> answers,
      String title,
      String what,
      double atLeast,
      ToDoubleFunction<MusclePart.Cut> value) {
    List<Curve> curves = new ArrayList<>();
    double high = atLeast;
    for (NeedleAnswer answer : answers) {
      List<MusclePart.Cut> cuts = answer.document().muscle().background().cuts();
      double[] up = cuts.stream().mapToDouble(value).toArray();
      for (double one : up) {
        high = Math.max(high, one);
      }
      curves.add(
          new Curve(
              answer.document().needle(),
              curves.isEmpty() ? Stroke.SOLID : Stroke.DASHED,
              cuts.stream().mapToDouble(c -> c.highPassHz() / 1000).toArray(),
              up));
    }
    return CurveFigure.draw(
        title,
        new Axis("high-pass (kHz)", Axis.Spacing.LINEAR, 0, HIGHEST_KHZ),
        new Axis(what, Axis.Spacing.LINEAR, 0, 1.15 * high),
        curves);
  }

  private static String needed(MusclePart.BackgroundPart part) {
    @Nullable Double lowest = part.lowestHighPassHz();
    return lowest == null
        ? "5 kHz are not enough"
        : lowest == 0 ? "no filter needed" : NeedleText.text("%.0f Hz needed", lowest);
  }
}
