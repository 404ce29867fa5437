package org.lonefibre.app.validate;

import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.validation.PitfallValidation;
import org.lonefibre.validation.score.PitfallScore;

/** How often findings are raised, with and without what they are about. */
final class FindingTable {

  private static final List<String> HEADS =
      List.of("finding", "sites", "hits", "false alarms", "in usual healthy sites");

  private final List<PitfallValidation.Row> rows;

  FindingTable(List<PitfallValidation.Row> rows) {
    this.rows = List.copyOf(rows);
  }

  /** Rows of cells, the first the heads. */
  List<List<String>> listCells() {
    List<List<String>> cells = new ArrayList<>();
    cells.add(HEADS);
    for (PitfallValidation.Row row : rows) {
      PitfallScore score = row.score();
      cells.add(
          List.of(
              score.code().code(),
              row.title(),
              score.hits() + " of " + score.sites(),
              score.falseAlarms() + " of " + score.controls(),
              score.usualSites() == 0 ? "" : score.usualAlarms() + " of " + score.usualSites()));
    }
    return cells;
  }

  /** The counts, for programs. */
  String json() throws IOException {
    JsonMapper mapper = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();
    ObjectNode root = mapper.createObjectNode();
    root.put("schema", "lonefibre-validation-1");
    ArrayNode findings = root.putArray("findings");
    for (PitfallValidation.Row row : rows) {
      PitfallScore score = row.score();
      findings
          .addObject()
          .put("code", score.code().code())
          .put("sites", row.title())
          .put("with", score.sites())
          .put("hits", score.hits())
          .put("without", score.controls())
          .put("falseAlarms", score.falseAlarms())
          .put("usualSites", score.usualSites())
          .put("usualAlarms", score.usualAlarms());
    }
    return mapper.writeValueAsString(root) + "\n";
  }
}
