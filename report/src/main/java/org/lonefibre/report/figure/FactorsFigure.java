package org.lonefibre.report.figure;

import java.util.List;
import java.util.Locale;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/** Factors as bars to either side of one, on a logarithmic axis, for a few conditions. */
public final class FactorsFigure {

  private static final int WIDTH = 960;
  private static final int HEIGHT = 540;
  private static final int TOP = 96;
  private static final int BOTTOM = 500;
  private static final int NAMES = 150;
  private static final int LETTERS = 17;
  private static final double[] TICKS = {0.1, 0.2, 0.5, 1, 2, 5, 10};

  private FactorsFigure() {}

  /**
   * A condition.
   *
   * @param title what stands above it
   * @param factors one a name, above 0
   */
  public record Condition(String title, List<Double> factors) {

    /** Copies the list. */
    public Condition {
      factors = List.copyOf(factors);
    }
  }

  /**
   * Draws it.
   *
   * @param title what it shows
   * @param names of the factors
   * @param conditions 1 to 4 conditions
   */
  public static Figure draw(String title, List<String> names, List<Condition> conditions) {
    Svg svg = new Svg(WIDTH, HEIGHT, title);
    svg.box(0, 0, WIDTH, HEIGHT, "#ffffff");
    svg.text(30, 38, Anchor.START, Ink.TEXT, 22, Weight.BOLD, title);
    double high = (BOTTOM - TOP) / (double) names.size();
    double least = 1 / 1.6;
    double most = 1.6;
    for (Condition condition : conditions) {
      for (double factor : condition.factors()) {
        least = Math.min(least, factor / 1.25);
        most = Math.max(most, factor * 1.25);
      }
    }
    double wide = (WIDTH - NAMES - 20) / (double) conditions.size();
    for (int n = 0; n < names.size(); n++) {
      double y = TOP + (n + 0.5) * high;
      svg.text(NAMES - 12, y + 6, Anchor.END, Ink.TEXT, LETTERS, Weight.PLAIN, names.get(n));
    }
    for (int c = 0; c < conditions.size(); c++) {
      double left = NAMES + c * wide;
      Scale x = new Scale(Math.log(least), Math.log(most), left + 10, left + wide - 62);
      condition(svg, conditions.get(c), x, left, high);
    }
    return new Figure(svg.close(), title);
  }

  private static void condition(Svg svg, Condition condition, Scale x, double left, double high) {
    svg.text(left + 10, TOP - 26, Anchor.START, Ink.TEXT, LETTERS, Weight.BOLD, condition.title());
    double free = Double.NEGATIVE_INFINITY;
    for (double tick : TICKS) {
      if (x.holds(Math.log(tick))) {
        double at = x.at(Math.log(tick));
        svg.line(at, TOP, at, BOTTOM, tick == 1 ? Ink.TEXT : Ink.GUIDE, 1.5, Dash.SOLID);
        String label = "×" + Scale.label(tick);
        double half = Svg.width(label, 15) / 2;
        if (at - half > free) {
          svg.text(at, BOTTOM + 22, Anchor.MIDDLE, Ink.TEXT, 15, Weight.PLAIN, label);
          free = at + half;
        }
      }
    }
    for (int n = 0; n < condition.factors().size(); n++) {
      double factor = condition.factors().get(n);
      double y = TOP + (n + 0.5) * high;
      double one = x.at(0);
      double at = x.at(Math.log(factor));
      String ink = factor < 1 ? Ink.RULE : Ink.TEXT;
      svg.box(Math.min(one, at), y - 0.28 * high, Math.abs(at - one), 0.56 * high, ink);
      svg.text(
          x.toPixel() + 56,
          y + 6,
          Anchor.END,
          Ink.TEXT,
          LETTERS,
          Weight.PLAIN,
          String.format(Locale.ROOT, "%.2f", factor));
    }
  }
}
