package org.lonefibre.report.figure;

import java.util.List;
import java.util.Locale;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * Waveforms side by side, each at its own height with a bar that tells how large it is; one bar of
 * time for all.
 */
public final class TracesFigure {

  private static final int WIDTH = 960;
  private static final int HEIGHT = 540;
  private static final int LEFT = 40;
  private static final int TOP = 110;
  private static final int BOTTOM = 430;
  private static final int LEGEND = 510;
  private static final int LETTERS = 17;

  private TracesFigure() {}

  /**
   * A panel.
   *
   * @param title what stands above it
   * @param lines its waveforms, ms over uV, on the same time
   */
  public record Panel(String title, List<Curve> lines) {

    /** Copies the list. */
    public Panel {
      lines = List.copyOf(lines);
    }
  }

  /**
   * Draws it.
   *
   * @param title what it shows
   * @param panels 1 to 5 panels
   */
  public static Figure draw(String title, List<Panel> panels) {
    Svg svg = new Svg(WIDTH, HEIGHT, title);
    svg.box(0, 0, WIDTH, HEIGHT, "#ffffff");
    svg.text(LEFT, 38, Anchor.START, Ink.TEXT, 22, Weight.BOLD, title);
    double wide = (WIDTH - LEFT) / (double) panels.size();
    for (int p = 0; p < panels.size(); p++) {
      panel(svg, panels.get(p), LEFT + p * wide, wide - 30);
    }
    legend(svg, panels.get(0));
    return new Figure(svg.close(), title);
  }

  private static void panel(Svg svg, Panel panel, double left, double width) {
    double from = panel.lines().get(0).across(0);
    double to = from;
    double low = 0;
    double high = 0;
    for (Curve line : panel.lines()) {
      to = Math.max(to, line.across(line.size() - 1));
      for (int i = 0; i < line.size(); i++) {
        low = Math.min(low, line.up(i));
        high = Math.max(high, line.up(i));
      }
    }
    Scale x = new Scale(from, to, left + 22, left + width);
    Scale y = Scale.holding(low, high, 1e-9, BOTTOM, TOP);
    svg.text(left, TOP - 28, Anchor.START, Ink.TEXT, LETTERS, Weight.BOLD, panel.title());
    svg.line(left + 22, y.at(0), left + width, y.at(0), Ink.GUIDE);
    for (int k = panel.lines().size() - 1; k >= 0; k--) {
      Curve line = panel.lines().get(k);
      Trace trace = new Trace();
      for (int i = 0; i < line.size(); i++) {
        trace.add(x.at(line.across(i)), y.at(line.up(i)));
      }
      svg.trace(trace.data(), line.ink(), line.width() - 0.5, line.dash());
    }
    double barUv = Scale.step((high - low) / 3);
    double bottom = y.at(low);
    svg.line(left + 6, bottom, left + 6, bottom - (y.at(0) - y.at(barUv)), Ink.TEXT, 3, Dash.SOLID);
    svg.text(left, BOTTOM + 26, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, volts(barUv));
    double barMs = 0.5;
    svg.line(
        x.toPixel() - (x.at(barMs) - x.at(0)),
        BOTTOM + 12,
        x.toPixel(),
        BOTTOM + 12,
        Ink.TEXT,
        3,
        Dash.SOLID);
    svg.text(x.toPixel(), BOTTOM + 34, Anchor.END, Ink.TEXT, LETTERS, Weight.PLAIN, "0.5 ms");
  }

  /** One legend for all panels, which show the same lines. */
  private static void legend(Svg svg, Panel panel) {
    double at = LEFT;
    for (Curve line : panel.lines()) {
      if (!line.name().isEmpty()) {
        svg.line(at, LEGEND - 6, at + 44, LEGEND - 6, line.ink(), line.width() - 0.5, line.dash());
        svg.text(at + 54, LEGEND, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, line.name());
        at += 90 + Svg.width(line.name(), LETTERS);
      }
    }
  }

  private static String volts(double uv) {
    return uv >= 1000
        ? String.format(Locale.ROOT, "%s mV", Scale.label(uv / 1000))
        : Scale.label(uv) + " µV";
  }
}
