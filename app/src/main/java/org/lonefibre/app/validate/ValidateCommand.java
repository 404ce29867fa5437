package org.lonefibre.app.validate;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.validation.PitfallValidation;
import org.lonefibre.validation.Validation;
import org.lonefibre.validation.campaign.EnoughCampaign;
import org.lonefibre.validation.cases.Pitfall;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Scores the measuring chain on simulated studies. */
@Command(
    name = "validate",
    description = "Scores the measuring chain on simulated cases with known truth, as a table.")
@SuppressWarnings("NullAway.Init")
public final class ValidateCommand implements Callable<Integer> {

  /** The shapes of the table. */
  private enum Format {
    TEXT,
    MARKDOWN,
    JSON
  }

  private static final int CAMPAIGN_STUDIES = 10_000;

  @Spec private CommandSpec spec;

  @Option(names = "--seed", defaultValue = "1", paramLabel = "N", description = "First seed (1).")
  private long seed;

  @Option(
      names = "--studies",
      defaultValue = "2",
      paramLabel = "N",
      description = "Studies of 20 sites for each condition (2).")
  private int studies;

  @Option(
      names = "--campaign",
      description =
          "Instead: how often what is said before the end of a study is wrong, over 10,000 simulated"
              + " studies a condition.")
  private boolean campaign;

  @Option(
      names = "--format",
      defaultValue = "text",
      paramLabel = "F",
      description = "text, markdown or json (text).")
  private Format format;

  @Option(
      names = "--findings",
      description =
          "Scores the findings of known pitfalls instead: hits and false alarms, ten sites each for"
              + " every study.")
  private boolean findings;

  @Override
  public Integer call() throws IOException {
    if (studies < 1) {
      throw new InputFault(
          "--studies", "", "a number of 1 or more", Integer.toString(studies), "correct it");
    }
    String table = findings ? pitfalls() : campaign ? campaign() : studies();
    spec.commandLine().getOut().print(table);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private String studies() throws IOException {
    List<Validation.Row> rows = new ArrayList<>();
    List<Validation.Condition> conditions = Validation.conditions();
    try (Progress progress = Progress.begin("validating", conditions.size())) {
      for (Validation.Condition condition : conditions) {
        rows.addAll(Validation.run(List.of(condition), seed, studies));
        progress.step();
      }
    }
    ScoreTable table = new ScoreTable(rows);
    return format == Format.JSON ? table.json() : shown(table.listCells());
  }

  private String pitfalls() throws IOException {
    FindingTable table;
    try (Progress progress = Progress.begin("validating", Pitfall.values().length)) {
      table = new FindingTable(PitfallValidation.run(seed, studies, progress::step));
    }
    return format == Format.JSON ? table.json() : shown(table.listCells());
  }

  private String shown(List<List<String>> cells) {
    return format == Format.MARKDOWN ? ScoreTable.markdown(cells) : ScoreTable.text(cells);
  }

  private String campaign() throws IOException {
    List<EnoughCampaign.Row> rows = new ArrayList<>();
    List<EnoughCampaign.Condition> conditions = EnoughCampaign.conditions();
    try (Progress progress = Progress.begin("simulating", conditions.size())) {
      for (EnoughCampaign.Condition condition : conditions) {
        rows.addAll(EnoughCampaign.run(condition, seed, CAMPAIGN_STUDIES));
        progress.step();
      }
    }
    CampaignTable table = new CampaignTable(rows);
    return format == Format.JSON ? table.json() : table.markdown();
  }
}
