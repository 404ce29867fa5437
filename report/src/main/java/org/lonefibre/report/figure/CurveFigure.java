package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * Curves over two axes, made for a slide: 16 to 9, few and large letters, black on white. A curve
 * ends where it leaves the figure.
 */
public final class CurveFigure {

  private static final int WIDTH = 960;
  private static final int HEIGHT = 540;
  private static final int LEFT = 110;
  private static final int RIGHT = 930;
  private static final int TOP = 70;
  private static final int BOTTOM = 460;
  private static final int LETTERS = 17;

  private CurveFigure() {}

  /**
   * Draws it.
   *
   * @param title what it shows
   * @param lower the lower axis
   * @param upright the upright axis
   * @param curves the curves, the first on top
   */
  public static Figure draw(String title, Axis lower, Axis upright, List<Curve> curves) {
    Svg svg = new Svg(WIDTH, HEIGHT, title);
    svg.box(0, 0, WIDTH, HEIGHT, "#ffffff");
    svg.text(LEFT, 38, Anchor.START, Ink.TEXT, 22, Weight.BOLD, title);
    Scale x = lower.scale(LEFT, RIGHT);
    Scale y = upright.scale(BOTTOM, TOP);
    for (double tick : lower.ticks()) {
      double at = x.at(lower.placed(tick));
      svg.line(at, TOP, at, BOTTOM, Ink.GUIDE);
      svg.text(at, BOTTOM + 24, Anchor.MIDDLE, Ink.TEXT, LETTERS, Weight.PLAIN, Scale.label(tick));
    }
    for (double tick : upright.ticks()) {
      double at = y.at(upright.placed(tick));
      svg.line(LEFT, at, RIGHT, at, Ink.GUIDE);
      svg.text(LEFT - 10, at + 6, Anchor.END, Ink.TEXT, LETTERS, Weight.PLAIN, Scale.label(tick));
    }
    svg.line(LEFT, BOTTOM, RIGHT, BOTTOM, Ink.TEXT, 1.5, Dash.SOLID);
    svg.line(LEFT, TOP, LEFT, BOTTOM, Ink.TEXT, 1.5, Dash.SOLID);
    svg.text(RIGHT, HEIGHT - 22, Anchor.END, Ink.TEXT, LETTERS, Weight.PLAIN, lower.label());
    svg.text(LEFT, TOP - 10, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, upright.label());
    List<double[]> drawn = new ArrayList<>();
    for (int i = curves.size() - 1; i >= 0; i--) {
      drawn.addAll(curve(svg, curves.get(i), lower, upright, x, y));
    }
    legend(svg, curves, drawn);
    return new Figure(svg.close(), title);
  }

  /** Draws a curve; the places it goes through, in pixels and close together. */
  private static List<double[]> curve(
      Svg svg, Curve curve, Axis lower, Axis upright, Scale x, Scale y) {
    Trace trace = new Trace();
    List<double[]> places = new ArrayList<>();
    double[] last = null;
    for (int i = 0; i < curve.size(); i++) {
      double[] next = {lower.placed(curve.across(i)), upright.placed(curve.up(i))};
      if (lower.shows(curve.across(i)) && upright.shows(curve.up(i))) {
        follow(trace, places, x.at(next[0]), y.at(next[1]));
        last = next;
      } else if (last != null) {
        double share =
            Math.min(
                left(last[0], next[0], lower.placed(lower.low()), lower.placed(lower.high())),
                left(
                    last[1],
                    next[1],
                    upright.placed(upright.low()),
                    upright.placed(upright.high())));
        follow(
            trace,
            places,
            x.at(last[0] + share * (next[0] - last[0])),
            y.at(last[1] + share * (next[1] - last[1])));
        break;
      }
    }
    if (!trace.isEmpty()) {
      svg.trace(trace.data(), curve.ink(), curve.width(), curve.dash());
    }
    return places;
  }

  /** Which share of the way from one place to the next lies between two ends. */
  private static double left(double from, double to, double low, double high) {
    double end = to < low ? low : to > high ? high : to;
    return to == from ? 1 : (end - from) / (to - from);
  }

  private static void follow(Trace trace, List<double[]> places, double x, double y) {
    trace.add(x, y);
    double[] before = places.isEmpty() ? new double[] {x, y} : places.get(places.size() - 1);
    int steps = 1 + (int) (Math.hypot(x - before[0], y - before[1]) / 4);
    for (int k = 1; k <= steps; k++) {
      double share = k / (double) steps;
      places.add(
          new double[] {before[0] + share * (x - before[0]), before[1] + share * (y - before[1])});
    }
  }

  /** Draws it in the corner where it hides least of the curves. */
  private static void legend(Svg svg, List<Curve> curves, List<double[]> drawn) {
    double width = 0;
    int lines = 0;
    for (Curve curve : curves) {
      if (!curve.name().isEmpty()) {
        width = Math.max(width, Svg.width(curve.name(), LETTERS));
        lines++;
      }
    }
    width += 83;
    double height = 26 * lines + 8;
    double bestLeft = 0;
    double bestTop = 0;
    int least = Integer.MAX_VALUE;
    for (double top : new double[] {TOP + 4, BOTTOM - height - 4}) {
      for (double left : new double[] {RIGHT - width - 2, LEFT + 4}) {
        int hidden = 0;
        for (double[] place : drawn) {
          boolean inside =
              place[0] > left - 6
                  && place[0] < left + width + 6
                  && place[1] > top - 6
                  && place[1] < top + height + 6;
          hidden += inside ? 1 : 0;
        }
        if (hidden < least) {
          least = hidden;
          bestLeft = left;
          bestTop = top;
        }
      }
    }
    svg.box(bestLeft, bestTop, width, height, "#ffffff");
    double left = bestLeft + 10;
    double at = bestTop + 20;
    for (Curve curve : curves) {
      if (!curve.name().isEmpty()) {
        svg.line(left, at - 6, left + 50, at - 6, curve.ink(), curve.width(), curve.dash());
        svg.text(left + 60, at, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, curve.name());
        at += 26;
      }
    }
  }
}
