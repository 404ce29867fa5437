package org.lonefibre.app.validate;

import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.validation.Validation;
import org.lonefibre.validation.score.Score;

/** Scores as a table for people, for documents, and for programs. */
final class ScoreTable {

  private static final List<String> HEADS =
      List.of(
          "condition",
          "sites",
          "eligible pairs",
          "found",
          "jitter right",
          "false blocks / judged",
          "true blocks found",
          "invented pairs");

  private final List<Validation.Row> rows;

  ScoreTable(List<Validation.Row> rows) {
    this.rows = List.copyOf(rows);
  }

  /** A table in Markdown; the first row are the heads. */
  static String markdown(List<List<String>> rows) {
    StringBuilder table = new StringBuilder();
    for (List<String> cells : rows) {
      table.append("| ").append(String.join(" | ", cells)).append(" |\n");
      if (cells == rows.get(0)) {
        table.append("|---".repeat(cells.size())).append("|\n");
      }
    }
    return table.toString();
  }

  /** Columns of even width. */
  static String text(List<List<String>> cells) {
    StringBuilder table = new StringBuilder();
    for (List<String> row : cells) {
      StringBuilder line = new StringBuilder();
      for (int c = 0; c < row.size(); c++) {
        int column = c;
        int width = cells.stream().mapToInt(r -> r.get(column).length()).max().orElse(0);
        String padding = " ".repeat(width - row.get(c).length());
        line.append(c == 0 ? row.get(c) + padding : "  " + padding + row.get(c));
      }
      table.append(line.toString().stripTrailing()).append('\n');
    }
    return table.toString();
  }

  /** The counts, for programs. */
  String json() throws IOException {
    JsonMapper mapper = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();
    ObjectNode root = mapper.createObjectNode();
    root.put("schema", "lonefibre-validation-1");
    ArrayNode conditions = root.putArray("conditions");
    for (Validation.Row row : rows) {
      Score score = row.score();
      conditions
          .addObject()
          .put("name", row.name())
          .put("sites", score.sites())
          .put("eligiblePairs", score.eligiblePairs())
          .put("foundPairs", score.foundPairs())
          .put("rightJitters", score.rightJitters())
          .put("judgedSweeps", score.judgedSweeps())
          .put("falseBlocks", score.falseBlocks())
          .put("trueBlocks", score.trueBlocks())
          .put("foundBlocks", score.foundBlocks())
          .put("inventedPairs", score.inventedPairs());
    }
    return mapper.writeValueAsString(root) + "\n";
  }

  /** Rows of cells, the first the heads. */
  List<List<String>> listCells() {
    List<List<String>> cells = new ArrayList<>();
    cells.add(HEADS);
    for (Validation.Row row : rows) {
      Score score = row.score();
      cells.add(
          List.of(
              row.name(),
              Integer.toString(score.sites()),
              Integer.toString(score.eligiblePairs()),
              percent(score.foundPercent()),
              percent(score.rightPercent()),
              score.falseBlocks() + " / " + score.judgedSweeps(),
              percent(score.blocksPercent()),
              Integer.toString(score.inventedPairs())));
    }
    return cells;
  }

  private static String percent(double percent) {
    return String.format(Locale.ROOT, "%.1f %%", percent);
  }
}
