package org.lonefibre.report.figure;

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
    for (int i = curves.size() - 1; i >= 0; i--) {
      curve(svg, curves.get(i), lower, upright, x, y);
    }
    legend(svg, curves);
    return new Figure(svg.close(), title);
  }

  private static void curve(Svg svg, Curve curve, Axis lower, Axis upright, Scale x, Scale y) {
    Trace trace = new Trace();
    for (int i = 0; i < curve.size(); i++) {
      double across = lower.placed(curve.across(i));
      double up = upright.placed(curve.up(i));
      if (!lower.shows(curve.across(i))) {
        continue;
      }
      if (upright.shows(curve.up(i))) {
        trace.add(x.at(across), y.at(up));
      } else if (i > 0 && upright.shows(curve.up(i - 1)) && !trace.isEmpty()) {
        double before = upright.placed(curve.up(i - 1));
        double edge = upright.placed(up < before ? upright.low() : upright.high());
        double share = (edge - before) / (up - before);
        double from = lower.placed(curve.across(i - 1));
        trace.add(x.at(from + share * (across - from)), y.at(edge));
        break;
      }
    }
    if (!trace.isEmpty()) {
      svg.trace(trace.data(), curve.ink(), curve.width(), curve.dash());
    }
  }

  private static void legend(Svg svg, List<Curve> curves) {
    double width = 0;
    int lines = 0;
    for (Curve curve : curves) {
      if (!curve.name().isEmpty()) {
        width = Math.max(width, Svg.width(curve.name(), LETTERS));
        lines++;
      }
    }
    double left = RIGHT - width - 75;
    svg.box(left - 10, TOP + 4, RIGHT - left + 8, 26 * lines + 8, "#ffffff");
    double at = TOP + 24;
    for (Curve curve : curves) {
      if (!curve.name().isEmpty()) {
        svg.line(left, at - 6, left + 50, at - 6, curve.ink(), curve.width(), curve.dash());
        svg.text(left + 60, at, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, curve.name());
        at += 26;
      }
    }
  }
}
