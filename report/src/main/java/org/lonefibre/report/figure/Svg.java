package org.lonefibre.report.figure;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;

/** Writes one SVG element. Places are in pixels from the top left, kept to a tenth. */
final class Svg {

  private static final String FONTS =
      "'DejaVu Sans Condensed','Segoe UI','Helvetica Neue',Arial,sans-serif";

  private final StringBuilder out = new StringBuilder(4096);

  /**
   * Opens the element.
   *
   * @param width in whole pixels
   * @param height in whole pixels
   * @param summary for readers who do not see it
   */
  Svg(int width, int height, String summary) {
    out.append("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-label=\"")
        .append(escaped(summary))
        .append(
            String.format(
                Locale.ROOT,
                "\" width=\"%1$d\" height=\"%2$d\" viewBox=\"0 0 %1$d %2$d\"",
                width,
                height))
        .append(" font-family=\"")
        .append(FONTS)
        .append("\" font-size=\"10\">\n");
  }

  /** How a line is drawn. */
  enum Dash {
    SOLID(""),
    LONG("6 3"),
    SHORT("2.5 2"),
    DOTTED("1 2.5");

    private final String pattern;

    Dash(String pattern) {
      this.pattern = pattern;
    }

    private String attribute() {
      return pattern.isEmpty() ? "" : " stroke-dasharray=\"" + pattern + "\"";
    }
  }

  /** Where a text stands to its place. */
  enum Anchor {
    START,
    MIDDLE,
    END
  }

  /** Weight of a text. */
  enum Weight {
    PLAIN,
    BOLD
  }

  Svg line(double x1, double y1, double x2, double y2, String ink, double width, Dash dash) {
    out.append("<path d=\"M")
        .append(place(x1))
        .append(' ')
        .append(place(y1))
        .append('L')
        .append(place(x2))
        .append(' ')
        .append(place(y2))
        .append("\" fill=\"none\" stroke=\"")
        .append(ink)
        .append("\" stroke-width=\"")
        .append(place(width))
        .append('"')
        .append(dash.attribute())
        .append("/>\n");
    return this;
  }

  Svg line(double x1, double y1, double x2, double y2, String ink) {
    return line(x1, y1, x2, y2, ink, 1, Dash.SOLID);
  }

  /** Draws a path whose data are in tenths of a pixel, as {@link Trace} gives them. */
  Svg trace(String data, String ink, double width, Dash dash) {
    out.append("<path transform=\"scale(.1)\" d=\"")
        .append(data)
        .append("\" fill=\"none\" stroke=\"")
        .append(ink)
        .append("\" stroke-width=\"")
        .append(place(width * 10))
        .append("\" stroke-linejoin=\"round\"");
    if (dash != Dash.SOLID) {
      out.append(" stroke-dasharray=\"").append(dash == Dash.SHORT ? "25 20" : "60 30").append('"');
    }
    out.append("/>\n");
    return this;
  }

  /** Fills a closed path whose data are in tenths of a pixel. */
  Svg area(String data, String ink) {
    out.append("<path transform=\"scale(.1)\" d=\"")
        .append(data)
        .append("Z\" fill=\"")
        .append(ink)
        .append("\" stroke=\"none\"/>\n");
    return this;
  }

  Svg disc(double x, double y, double radius, String ink) {
    out.append("<circle cx=\"")
        .append(place(x))
        .append("\" cy=\"")
        .append(place(y))
        .append("\" r=\"")
        .append(place(radius))
        .append("\" fill=\"")
        .append(ink)
        .append("\"/>\n");
    return this;
  }

  Svg box(double x, double y, double width, double height, String ink) {
    out.append("<rect x=\"")
        .append(place(x))
        .append("\" y=\"")
        .append(place(y))
        .append("\" width=\"")
        .append(place(width))
        .append("\" height=\"")
        .append(place(height))
        .append("\" fill=\"")
        .append(ink)
        .append("\"/>\n");
    return this;
  }

  Svg cross(double x, double y, double arm, String ink) {
    return line(x - arm, y - arm, x + arm, y + arm, ink, 1.4, Dash.SOLID)
        .line(x - arm, y + arm, x + arm, y - arm, ink, 1.4, Dash.SOLID);
  }

  Svg text(double x, double y, Anchor anchor, String ink, int size, Weight weight, String text) {
    out.append("<text x=\"").append(place(x)).append("\" y=\"").append(place(y)).append('"');
    if (anchor != Anchor.START) {
      out.append(" text-anchor=\"").append(anchor == Anchor.END ? "end" : "middle").append('"');
    }
    if (size != 10) {
      out.append(" font-size=\"").append(size).append('"');
    }
    if (weight == Weight.BOLD) {
      out.append(" font-weight=\"bold\"");
    }
    out.append(" fill=\"").append(ink).append("\">").append(escaped(text)).append("</text>\n");
    return this;
  }

  Svg text(double x, double y, Anchor anchor, String text) {
    return text(x, y, anchor, Ink.TEXT, 10, Weight.PLAIN, text);
  }

  Svg quiet(double x, double y, Anchor anchor, String text) {
    return text(x, y, anchor, Ink.QUIET, 9, Weight.PLAIN, text);
  }

  /** Closes the element. */
  String close() {
    return out.append("</svg>").toString();
  }

  /** The text cut so that it fits, with an ellipsis in place of what is missing. */
  static String fitted(String text, double width, int size) {
    int most = Math.max(1, (int) (width / (0.5 * size)));
    return text.codePointCount(0, text.length()) <= most
        ? text
        : text.substring(0, text.offsetByCodePoints(0, most - 1)) + "…";
  }

  /** Width that a text will need, about, and rather too much. */
  static double width(String text, int size) {
    return text.codePointCount(0, text.length()) * 0.56 * size;
  }

  private static String escaped(String text) {
    StringBuilder safe = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '&' -> safe.append("&amp;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                case '\n', '\t', '\r' -> safe.append(' ');
                default -> safe.appendCodePoint(isXml(c) ? c : '\uFFFD');
              }
            });
    return safe.toString();
  }

  /** What XML 1.0 allows of characters beside white space; C1 controls and lone surrogates not. */
  private static boolean isXml(int c) {
    return c >= ' '
        && (c < 0x7F || c > 0x9F)
        && (c < 0xD800 || c > 0xDFFF)
        && (c & 0xFFFE) != 0xFFFE;
  }

  private static String place(double pixels) {
    BigDecimal rounded = BigDecimal.valueOf(pixels).setScale(1, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }
}
