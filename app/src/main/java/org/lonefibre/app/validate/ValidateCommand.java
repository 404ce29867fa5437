package org.lonefibre.app.validate;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.validation.CaseValidation;
import org.lonefibre.validation.PitfallValidation;
import org.lonefibre.validation.Validation;
import org.lonefibre.validation.campaign.EnoughCampaign;
import org.lonefibre.validation.campaign.GoalCampaign;
import org.lonefibre.validation.campaign.GoalCampaigns;
import org.lonefibre.validation.cases.CaseLibrary;
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
  private static final String ENOUGH = "enough";

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
      arity = "0..1",
      fallbackValue = ENOUGH,
      paramLabel = "NAME",
      description =
          "Instead: many trials against known truth, with goals. enough (how often what is said"
              + " before the end of a study is wrong; if no name is given), or one of"
              + " ${COMPLETION-CANDIDATES}.",
      completionCandidates = CampaignNames.class)
  private @Nullable String campaign;

  @Option(
      names = "--trials",
      paramLabel = "N",
      description = "Trials of each cell of a campaign (each campaign has its own usual number).")
  private @Nullable Integer trials;

  @Option(
      names = "--replay",
      paramLabel = "CELL:TRIAL",
      description = "With --campaign: one trial again, by number of cell and trial, both from 0.")
  private @Nullable String replay;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "With --campaign NAME: writes the page and its figures there as well.")
  private @Nullable Path out;

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

  @Option(
      names = "--goals",
      paramLabel = "DIR",
      description =
          "Instead: every goal of the campaigns' pages in this folder, with what was measured.")
  private @Nullable Path goals;

  @Option(
      names = "--cases",
      description = "Measures the case library instead: each case with what is expected of it.")
  private boolean cases;

  @Override
  public Integer call() throws IOException {
    if (studies < 1) {
      throw new InputFault(
          "--studies", "", "a number of 1 or more", Integer.toString(studies), "correct it");
    }
    String table =
        goals != null
            ? new GoalSummary(goals).markdown()
            : cases
                ? library()
                : findings ? pitfalls() : campaign != null ? campaign(campaign) : studies();
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

  private String library() {
    List<List<String>> cells = new ArrayList<>();
    cells.add(List.of("case", "truth", "finding", "expected", "found", "right"));
    try (Progress progress = Progress.begin("validating", CaseLibrary.listAll().size())) {
      for (CaseValidation.Row row : CaseValidation.run(progress::step)) {
        cells.add(
            List.of(
                row.of().id(),
                row.of().truth(),
                row.of().finding().name().toLowerCase(Locale.ROOT).replace('_', '-'),
                row.of().raised() ? "raised" : "absent",
                row.isRaised() ? "raised" : "absent",
                row.isRight() ? "yes" : "no"));
      }
    }
    return shown(cells);
  }

  private String shown(List<List<String>> cells) {
    return format == Format.MARKDOWN ? ScoreTable.markdown(cells) : ScoreTable.text(cells);
  }

  private String campaign(String name) throws IOException {
    if (name.equals(ENOUGH)) {
      return enough();
    }
    GoalCampaign chosen =
        GoalCampaigns.named(name)
            .orElseThrow(
                () ->
                    new InputFault(
                        "--campaign",
                        "",
                        ENOUGH + ", " + String.join(", ", new CampaignNames()),
                        name,
                        "name one of them"));
    if (replay != null) {
      return replay(chosen, replay);
    }
    int number = trials == null ? chosen.usualTrials() : trials;
    if (number < 1) {
      throw new InputFault(
          "--trials", "", "a number of 1 or more", Integer.toString(number), "correct it");
    }
    try (Progress progress = Progress.begin("simulating", chosen.cells())) {
      GoalPage page = new GoalPage(chosen, seed, number, chosen.run(seed, number, progress::step));
      if (out != null) {
        page.write(out);
      }
      return format == Format.JSON ? page.json() : page.markdown();
    }
  }

  private String replay(GoalCampaign chosen, String which) throws InputFault {
    String[] parts = which.split(":", -1);
    try {
      if (parts.length == 2) {
        return chosen.replay(seed, Integer.parseInt(parts[0]), Integer.parseInt(parts[1]));
      }
    } catch (IllegalArgumentException e) {
      // Said below: neither a number that cannot be read nor one out of range is there.
    }
    throw new InputFault(
        "--replay",
        "",
        "number of cell and trial, as 3:17; cells are 0 to " + (chosen.cells() - 1),
        which,
        "correct it");
  }

  private String enough() throws IOException {
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
