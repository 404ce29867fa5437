package org.lonefibre.report.figure;

import java.util.List;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * A table over two axes as a slide: each cell has a number and one of three shades, told apart by
 * lightness and by hatching, not by colour.
 */
public final class MapFigure {

  private static final int WIDTH = 960;
  private static final int HEIGHT = 540;
  private static final int LEFT = 84;
  private static final int RIGHT = 940;
  private static final int TOP = 84;
  private static final int BOTTOM = 412;
  private static final int LETTERS = 17;

  /** How a cell is laid. */
  public enum Shade {
    /** White. */
    PLAIN("#ffffff", Ink.TEXT),
    /** Light grey, hatched. */
    HATCHED("#d4d4d4", Ink.TEXT),
    /** Dark, with light letters. */
    DARK("#4a4a4a", "#ffffff");

    private final String ground;
    private final String letters;

    Shade(String ground, String letters) {
      this.ground = ground;
      this.letters = letters;
    }
  }

  /**
   * A cell.
   *
   * @param shade its shade
   * @param text its number
   */
  public record Cell(Shade shade, String text) {}

  /**
   * What a shade means.
   *
   * @param shade the shade
   * @param text its meaning
   */
  public record Meaning(Shade shade, String text) {}

  /**
   * A row.
   *
   * @param label what stands to its left
   * @param cells from left to right
   */
  public record Row(String label, List<Cell> cells) {

    /** Copies the list. */
    public Row {
      cells = List.copyOf(cells);
    }
  }

  private MapFigure() {}

  /**
   * Draws it.
   *
   * @param title what it shows
   * @param across what the columns are, with unit
   * @param columns a label a column, up to 18
   * @param up what the rows are
   * @param rows from the bottom up, up to 10, each with as many cells as columns
   * @param meanings of the shades
   */
  public static Figure draw(
      String title,
      String across,
      List<String> columns,
      String up,
      List<Row> rows,
      List<Meaning> meanings) {
    Svg svg = new Svg(WIDTH, HEIGHT, title);
    svg.box(0, 0, WIDTH, HEIGHT, "#ffffff");
    svg.text(24, 36, Anchor.START, Ink.TEXT, 22, Weight.BOLD, title);
    svg.text(24, TOP - 16, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, up);
    double wide = (RIGHT - LEFT) / (double) columns.size();
    double high = (BOTTOM - TOP) / (double) rows.size();
    for (int r = 0; r < rows.size(); r++) {
      Row row = rows.get(r);
      double top = BOTTOM - (r + 1) * high;
      svg.text(
          LEFT - 10, top + high / 2 + 6, Anchor.END, Ink.TEXT, LETTERS, Weight.PLAIN, row.label());
      for (int c = 0; c < columns.size(); c++) {
        cell(svg, row.cells().get(c), LEFT + c * wide, top, wide, high);
      }
    }
    for (int c = 0; c < columns.size(); c++) {
      svg.text(
          LEFT + (c + 0.5) * wide,
          BOTTOM + 22,
          Anchor.MIDDLE,
          Ink.TEXT,
          15,
          Weight.PLAIN,
          columns.get(c));
    }
    svg.text(RIGHT, BOTTOM + 48, Anchor.END, Ink.TEXT, LETTERS, Weight.PLAIN, across);
    double at = 24;
    for (Meaning meaning : meanings) {
      cell(svg, new Cell(meaning.shade(), ""), at, HEIGHT - 42, 40, 26);
      svg.text(at + 50, HEIGHT - 23, Anchor.START, Ink.TEXT, LETTERS, Weight.PLAIN, meaning.text());
      at += 84 + Svg.width(meaning.text(), LETTERS);
    }
    return new Figure(svg.close(), title);
  }

  private static void cell(Svg svg, Cell cell, double left, double top, double wide, double high) {
    Shade shade = cell.shade();
    svg.box(left, top, wide, high, Ink.RULE);
    svg.box(left + 0.8, top + 0.8, wide - 1.6, high - 1.6, shade.ground);
    if (shade == Shade.HATCHED) {
      for (double from = 10; from < wide + high - 2; from += 10) {
        double x1 = Math.min(from, wide - 1);
        double y1 = from - x1;
        double y2 = Math.min(from, high - 1);
        double x2 = from - y2;
        svg.line(left + x1, top + y1, left + x2, top + y2, "#b4b4b4", 1, Dash.SOLID);
      }
    }
    if (!cell.text().isEmpty()) {
      svg.text(
          left + wide / 2,
          top + high / 2 + 5,
          Anchor.MIDDLE,
          shade.letters,
          15,
          Weight.PLAIN,
          cell.text());
    }
  }
}
