package org.lonefibre.report.figure;

import java.util.List;
import java.util.Locale;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * A whole recording on one page: a strip for each channel, in which each pixel column reaches from
 * the least to the greatest sample that falls on it, so that no spike is hidden. Where a channel
 * has a gap its strip is empty. Thread rule: safe.
 */
public final class RecordingFigure {

  /** Pixel columns of a strip. */
  public static final int COLUMNS = 860;

  /** More strips than anyone looks at are counted, not drawn; engineering choice. */
  public static final int MOST_STRIPS = 32;

  /** Shorter recordings have their time in milliseconds. */
  private static final double BRIEF_S = 0.1;

  private static final int LEFT = 130;
  private static final int WIDTH = LEFT + COLUMNS + 10;
  private static final int STRIP = 72;
  private static final int TOP = 24;
  private static final int FOOT = 26;

  /**
   * One channel.
   *
   * @param label what stands beside it; escaped here
   * @param unit unit of the values, empty if unknown; escaped here
   * @param least least sample of each of {@link #COLUMNS} columns; NaN where there is none
   * @param greatest greatest sample of each column; NaN where there is none
   */
  public record Strip(String label, String unit, List<Double> least, List<Double> greatest) {

    /** Copies its lists; refuses other lengths. */
    public Strip {
      least = List.copyOf(least);
      greatest = List.copyOf(greatest);
      if (least.size() != COLUMNS || greatest.size() != COLUMNS) {
        throw new IllegalArgumentException(
            "a strip has " + COLUMNS + " columns, found " + least.size());
      }
    }
  }

  private RecordingFigure() {}

  /**
   * Draws a recording.
   *
   * @param title name of the recording; escaped here
   * @param durationS time that the columns span, in seconds
   */
  public static Figure draw(String title, double durationS, List<Strip> strips) {
    List<Strip> drawn = strips.subList(0, Math.min(MOST_STRIPS, strips.size()));
    int bottom = TOP + drawn.size() * STRIP;
    String summary =
        String.format(
            Locale.ROOT,
            "%s: %d %s over %.3f s, least and greatest sample of each pixel column%s.",
            title,
            strips.size(),
            strips.size() == 1 ? "channel" : "channels",
            durationS,
            drawn.size() < strips.size() ? ", the first " + drawn.size() + " drawn" : "");
    Svg svg = new Svg(WIDTH, bottom + FOOT, summary);
    svg.box(0, 0, WIDTH, bottom + FOOT, "#ffffff");
    svg.text(4, 14, Anchor.START, Ink.TEXT, 11, Weight.BOLD, Svg.fitted(title, WIDTH - 8.0, 11));
    Scale time = new Scale(0, durationS > 0 ? durationS : 1, LEFT, LEFT + COLUMNS);
    for (double tick : time.ticks(8)) {
      svg.line(time.at(tick), TOP, time.at(tick), bottom, Ink.GUIDE);
      svg.quiet(time.at(tick), bottom + 14, Anchor.MIDDLE, time(tick, durationS));
    }
    for (int s = 0; s < drawn.size(); s++) {
      strip(svg, drawn.get(s), TOP + s * STRIP);
    }
    return new Figure(svg.close(), summary);
  }

  private static String time(double tickS, double durationS) {
    return durationS > 0 && durationS < BRIEF_S
        ? Scale.label(1000 * tickS) + " ms"
        : Scale.label(tickS) + " s";
  }

  private static void strip(Svg svg, Strip strip, int top) {
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    int filled = 0;
    for (int c = 0; c < COLUMNS; c++) {
      if (Double.isFinite(strip.least().get(c)) && Double.isFinite(strip.greatest().get(c))) {
        lowest = Math.min(lowest, strip.least().get(c));
        highest = Math.max(highest, strip.greatest().get(c));
        filled++;
      }
    }
    svg.line(LEFT, top + STRIP, LEFT + COLUMNS, top + STRIP, Ink.GUIDE, 1, Dash.SOLID);
    svg.text(
        4, top + 30, Anchor.START, Ink.TEXT, 10, Weight.PLAIN, Svg.fitted(strip.label(), 66, 10));
    if (!(highest >= lowest)) {
      svg.quiet(LEFT + 6, top + 30, Anchor.START, "no samples");
      return;
    }
    String unit = strip.unit().isEmpty() ? "" : " " + strip.unit();
    svg.quiet(LEFT - 4, top + 12, Anchor.END, Svg.fitted(Scale.label(highest) + unit, 60, 9));
    svg.quiet(LEFT - 4, top + STRIP - 4, Anchor.END, Svg.fitted(Scale.label(lowest) + unit, 60, 9));
    // Upside down: the highest value stands at the top.
    double span = highest > lowest ? highest - lowest : 1;
    double room = STRIP - 8.0;
    // Few samples stand alone: dots that can be seen.
    long dot = 2 * filled < COLUMNS ? 20 : 6;
    StringBuilder bars = new StringBuilder();
    for (int c = 0; c < COLUMNS; c++) {
      double least = strip.least().get(c);
      double greatest = strip.greatest().get(c);
      if (Double.isFinite(least) && Double.isFinite(greatest)) {
        long from = Math.round(10 * (top + 4 + room * (highest - greatest) / span));
        long to = Math.round(10 * (top + 4 + room * (highest - least) / span));
        bars.append('M').append(10L * (LEFT + c) + 5).append(' ').append(from);
        bars.append('v').append(Math.max(dot, to - from));
      }
    }
    svg.trace(bars.toString(), Ink.MARK, 1, Dash.SOLID);
  }
}
