package org.lonefibre.app.limits;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.app.terminal.FaultLine;

/** Rows of cells as lines with columns of even width. */
public final class Columns {

  private Columns() {}

  /** The lines, without their ends. */
  public static List<String> of(List<List<String>> rows) {
    List<String> lines = new ArrayList<>();
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder();
      for (int c = 0; c < row.size(); c++) {
        int column = c;
        int width = rows.stream().mapToInt(r -> r.get(column).length()).max().orElse(0);
        String cell = FaultLine.oneLine(row.get(c));
        line.append(cell).append(" ".repeat(Math.max(0, width - cell.length()) + 2));
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }
}
