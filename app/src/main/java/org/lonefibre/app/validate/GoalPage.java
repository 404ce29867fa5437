package org.lonefibre.app.validate;

import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.validation.campaign.GoalCampaign;
import org.lonefibre.validation.campaign.GoalFigure;
import org.lonefibre.validation.campaign.GoalRow;
import org.lonefibre.validation.campaign.GoalTable;

/** What a campaign found, as the page of documents or for programs. */
final class GoalPage {

  private final GoalCampaign campaign;
  private final long seed;
  private final int trials;
  private final List<GoalTable> tables;

  GoalPage(GoalCampaign campaign, long seed, int trials, List<GoalTable> tables) {
    this.campaign = campaign;
    this.seed = seed;
    this.trials = trials;
    this.tables = List.copyOf(tables);
  }

  /** The page in Markdown. */
  String markdown() {
    StringBuilder page = new StringBuilder("# ").append(campaign.title()).append("\n\n");
    page.append("Made by `./lonefibre validate --campaign ")
        .append(campaign.name())
        .append(" --seed ")
        .append(seed)
        .append(" --trials ")
        .append(trials)
        .append("`; one trial again: `--replay CELL:TRIAL`.\n\n")
        .append(campaign.introduction())
        .append('\n');
    long goals = tables.stream().mapToLong(GoalTable::goals).sum();
    long met = tables.stream().mapToLong(GoalTable::goalsMet).sum();
    if (goals > 0) {
      page.append("**Goals met: ").append(met).append(" of ").append(goals).append(".**\n");
    }
    for (GoalTable table : tables) {
      page.append("\n## ").append(table.title()).append("\n\n");
      if (table.goals() > 0) {
        page.append("Met: ").append(table.goalsMet()).append(" of ").append(table.goals());
        page.append(".\n\n");
      }
      page.append(ScoreTable.markdown(cells(table)));
      for (GoalFigure figure : table.figures()) {
        page.append("\n![")
            .append(figure.title())
            .append("](")
            .append(fileOf(figure))
            .append(")\n");
      }
      if (!table.notes().isEmpty()) {
        page.append('\n').append(table.notes().strip()).append('\n');
      }
    }
    return page.toString();
  }

  /** Writes the page and its figures, each named after the campaign. */
  void write(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (GoalTable table : tables) {
      for (GoalFigure figure : table.figures()) {
        WholeFile.write(
            folder.resolve(fileOf(figure)),
            GoalDrawing.of(figure).svg().getBytes(StandardCharsets.UTF_8));
      }
    }
    WholeFile.write(
        folder.resolve(campaign.name() + ".md"), markdown().getBytes(StandardCharsets.UTF_8));
  }

  private String fileOf(GoalFigure figure) {
    return campaign.name() + "-" + figure.name() + ".svg";
  }

  private static List<List<String>> cells(GoalTable table) {
    boolean judged = table.goals() > 0;
    List<List<String>> all = new ArrayList<>();
    List<String> heads = new ArrayList<>(table.heads());
    if (judged) {
      heads.addAll(List.of("goal", "met"));
    }
    all.add(heads);
    for (GoalRow row : table.rows()) {
      List<String> cells = new ArrayList<>(row.cells());
      if (judged) {
        cells.add(row.goal());
        Boolean met = row.met();
        cells.add(met == null ? "" : met ? "yes" : "**no**");
      }
      all.add(cells);
    }
    return all;
  }

  /** The tables, for programs. */
  String json() throws IOException {
    JsonMapper mapper = JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();
    ObjectNode root = mapper.createObjectNode();
    root.put("schema", "lonefibre-goals-1").put("campaign", campaign.name());
    root.put("seed", seed).put("trials", trials);
    ArrayNode list = root.putArray("tables");
    for (GoalTable table : tables) {
      ObjectNode node = list.addObject().put("title", table.title());
      table.heads().forEach(node.putArray("heads")::add);
      ArrayNode rows = node.putArray("rows");
      for (GoalRow row : table.rows()) {
        ObjectNode line = rows.addObject();
        row.cells().forEach(line.putArray("cells")::add);
        line.put("goal", row.goal()).put("met", row.met());
      }
    }
    return mapper.writeValueAsString(root) + "\n";
  }
}
