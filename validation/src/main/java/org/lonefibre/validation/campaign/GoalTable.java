package org.lonefibre.validation.campaign;

import java.util.List;

/**
 * A table of a campaign's page.
 *
 * @param title its heading
 * @param heads heads of the columns, without those of goal and met
 * @param rows its lines
 * @param notes what to know about it, as Markdown; may be empty
 * @param figures what is drawn of it
 */
public record GoalTable(
    String title, List<String> heads, List<GoalRow> rows, String notes, List<GoalFigure> figures) {

  /** Copies the lists. */
  public GoalTable {
    heads = List.copyOf(heads);
    rows = List.copyOf(rows);
    figures = List.copyOf(figures);
  }

  /** A table of which nothing is drawn. */
  GoalTable(String title, List<String> heads, List<GoalRow> rows, String notes) {
    this(title, heads, rows, notes, List.of());
  }

  /** Number of lines with a goal. */
  public long goals() {
    return rows.stream().filter(row -> row.met() != null).count();
  }

  /** Number of lines whose goal is met. */
  public long goalsMet() {
    return rows.stream().filter(row -> Boolean.TRUE.equals(row.met())).count();
  }
}
