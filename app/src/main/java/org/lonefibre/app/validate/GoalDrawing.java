package org.lonefibre.app.validate;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.report.figure.Axis;
import org.lonefibre.report.figure.Curve;
import org.lonefibre.report.figure.CurveFigure;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.validation.campaign.GoalFigure;

/** Draws the figures of a campaign's page. */
final class GoalDrawing {

  private static final List<Curve.Stroke> STROKES =
      List.of(Curve.Stroke.SOLID, Curve.Stroke.DOTTED, Curve.Stroke.DASHED, Curve.Stroke.GUIDE);

  private GoalDrawing() {}

  static Figure of(GoalFigure figure) {
    List<Curve> curves = new ArrayList<>();
    for (GoalFigure.GoalCurve curve : figure.curves()) {
      curves.add(
          new Curve(
              curve.name(),
              STROKES.get(curves.size() % STROKES.size()),
              numbers(curve.across()),
              numbers(curve.up())));
    }
    return CurveFigure.draw(
        figure.title(),
        axis(figure.lower(), figure.lowerEnds()),
        axis(figure.upright(), figure.uprightEnds()),
        curves);
  }

  private static Axis axis(String label, GoalFigure.Ends ends) {
    return new Axis(
        label,
        ends.isLogarithmic() ? Axis.Spacing.LOGARITHMIC : Axis.Spacing.LINEAR,
        ends.low().doubleValue(),
        ends.high().doubleValue());
  }

  private static double[] numbers(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
