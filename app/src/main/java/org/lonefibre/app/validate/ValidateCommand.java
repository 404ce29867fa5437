package org.lonefibre.app.validate;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.validation.Validation;
import org.lonefibre.validation.score.Score;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Scores the measuring chain on simulated studies; prints a table in Markdown. */
@Command(
    name = "validate",
    description = "Scores the measuring chain on cases with known truth; prints a Markdown table.")
@SuppressWarnings("NullAway.Init")
public final class ValidateCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Option(names = "--seed", defaultValue = "1", paramLabel = "N", description = "First seed (1).")
  private long seed;

  @Option(
      names = "--studies",
      defaultValue = "2",
      paramLabel = "N",
      description = "Studies of 20 sites for each condition (2).")
  private int studies;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    out.println(
        "| condition | sites | eligible pairs | found | jitter right | false blocks / judged |"
            + " true blocks found | invented pairs |");
    out.println("|---|---|---|---|---|---|---|---|");
    List<Validation.Row> rows = Validation.run(Validation.conditions(), seed, studies);
    for (Validation.Row row : rows) {
      Score score = row.score();
      out.println(
          String.format(
              Locale.ROOT,
              "| %s | %d | %d | %.1f %% | %.1f %% | %d / %d | %.1f %% | %d |",
              row.name(),
              score.sites(),
              score.eligiblePairs(),
              score.foundPercent(),
              score.rightPercent(),
              score.falseBlocks(),
              score.judgedSweeps(),
              score.blocksPercent(),
              score.inventedPairs()));
    }
    out.flush();
    return ExitCode.DONE.number();
  }
}
