package org.lonefibre.app.validate;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.app.terminal.InputFault;

/** Every goal of the campaigns' pages in a folder, with what was measured, as one page. */
final class GoalSummary {

  private static final String MET = "met";

  /**
   * A table of a page with goals.
   *
   * @param rows the first are the heads; only rows with a goal
   */
  private record Judged(String page, String title, List<List<String>> rows) {

    List<List<String>> listRows() {
      return rows.subList(1, rows.size());
    }

    long met() {
      return listRows().stream().filter(Judged::isMet).count();
    }

    static boolean isMet(List<String> row) {
      return row.get(row.size() - 1).equals("yes");
    }
  }

  private final Path folder;
  private final List<Judged> tables = new ArrayList<>();
  private final Map<String, String> titles = new LinkedHashMap<>();

  /** Reads the pages of all campaigns that are there. */
  GoalSummary(Path folder) throws IOException, InputFault {
    this.folder = folder;
    for (String campaign : new CampaignNames()) {
      Path page = folder.resolve(campaign + ".md");
      if (Files.exists(page)) {
        read(campaign, Files.readAllLines(page, StandardCharsets.UTF_8));
      }
    }
    if (tables.isEmpty()) {
      throw new InputFault(
          folder.toString(),
          "",
          "pages of campaigns, as grading.md",
          "none with a goal",
          "write them with --campaign NAME --out DIR");
    }
  }

  private void read(String campaign, List<String> lines) {
    String title = "";
    Judged table = null;
    for (String line : lines) {
      if (line.startsWith("# ")) {
        titles.put(campaign, line.substring(2));
      } else if (line.startsWith("## ")) {
        title = line.substring(3);
        table = null;
      } else if (line.startsWith("| ")) {
        List<String> cells = cells(line);
        if (table == null && cells.get(cells.size() - 1).equals(MET)) {
          table = new Judged(campaign, title, new ArrayList<>(List.of(cells)));
          tables.add(table);
        } else if (table != null
            && cells.size() == table.rows().get(0).size()
            && !cells.get(cells.size() - 1).isEmpty()) {
          table.rows().add(cells);
        }
      }
    }
  }

  private static List<String> cells(String line) {
    String inner = line.substring(1, line.lastIndexOf('|'));
    return Arrays.stream(inner.split("\\|", -1)).map(String::strip).toList();
  }

  /** The page in Markdown. */
  String markdown() {
    long goals = tables.stream().mapToLong(table -> table.listRows().size()).sum();
    long met = tables.stream().mapToLong(Judged::met).sum();
    StringBuilder page = new StringBuilder("# Every goal, and what was measured\n\n");
    page.append("Made by `./lonefibre validate --goals ")
        .append(folder.toString().replace('\\', '/'))
        .append("` from the pages named here; how each was made, with which seed and how many")
        .append(" trials, stands there.\n\n**Goals met: ")
        .append(met)
        .append(" of ")
        .append(goals)
        .append(".**\n\n");
    List<List<String>> overview = new ArrayList<>();
    overview.add(List.of("page", "what", "conditions", "met"));
    for (Judged table : tables) {
      overview.add(
          List.of(
              "[" + titles.getOrDefault(table.page(), table.page()) + "](" + table.page() + ".md)",
              table.title(),
              Integer.toString(table.listRows().size()),
              Long.toString(table.met())));
    }
    page.append(ScoreTable.markdown(overview)).append("\n## Not met\n");
    tables.forEach(table -> append(page, table, false));
    page.append("\n## Met\n");
    tables.forEach(table -> append(page, table, true));
    return page.toString();
  }

  private static void append(StringBuilder page, Judged table, boolean met) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(table.rows().get(0));
    table.listRows().stream().filter(row -> Judged.isMet(row) == met).forEach(rows::add);
    if (rows.size() > 1) {
      page.append("\n### ").append(table.title()).append("\n\n");
      page.append(ScoreTable.markdown(rows));
    }
  }
}
