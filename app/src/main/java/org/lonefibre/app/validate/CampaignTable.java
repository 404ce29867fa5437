package org.lonefibre.app.validate;

import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import org.lonefibre.validation.campaign.EnoughCampaign;

/** False alarms and misses of a campaign as a table. */
final class CampaignTable {

  private final List<EnoughCampaign.Row> rows;

  CampaignTable(List<EnoughCampaign.Row> rows) {
    this.rows = List.copyOf(rows);
  }

  /** A table in Markdown. */
  String markdown() {
    StringBuilder table =
        new StringBuilder(
            "| condition | test | studies | says beyond | error | signals, mean | certain but"
                + " wrong |\n|---|---|---|---|---|---|---|\n");
    for (EnoughCampaign.Row row : rows) {
      table.append(
          String.format(
              Locale.ROOT,
              "| %s | %s | %d | %.2f %% | %s | %.1f | %d |\n",
              row.condition().name(),
              row.test(),
              row.studies(),
              row.beyondPercent(),
              error(row),
              row.signals(),
              row.certainWrong()));
    }
    return table.toString();
  }

  private static String error(EnoughCampaign.Row row) {
    double beyond = row.beyondPercent();
    return switch (row.condition().truth()) {
      case HEALTHY -> String.format(Locale.ROOT, "false alarm %.2f %%", beyond);
      case BETWEEN -> "none stated";
      case RAISED_CENTRE ->
          row.test().equals("outliers")
              ? "none stated"
              : String.format(Locale.ROOT, "miss %.2f %%", 100 - beyond);
      case RAISED_SINGLE ->
          row.test().equals("centre-above-limit")
              ? "none stated"
              : String.format(Locale.ROOT, "miss %.2f %%", 100 - beyond);
    };
  }

  /** The counts, for programs. */
  String json() throws IOException {
    JsonMapper mapper = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();
    ObjectNode root = mapper.createObjectNode();
    root.put("schema", "lonefibre-campaign-1");
    ArrayNode conditions = root.putArray("conditions");
    for (EnoughCampaign.Row row : rows) {
      conditions
          .addObject()
          .put("name", row.condition().name())
          .put("truth", row.condition().truth().name().toLowerCase(Locale.ROOT).replace('_', '-'))
          .put("test", row.test())
          .put("studies", row.studies())
          .put("beyond", row.beyond())
          .put("meanSignals", row.signals())
          .put("certainWrong", row.certainWrong());
    }
    return mapper.writeValueAsString(root) + "\n";
  }
}
