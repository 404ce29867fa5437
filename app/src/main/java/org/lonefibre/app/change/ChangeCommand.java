package org.lonefibre.app.change;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.BeforeAfter;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.document.AnalysisJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Two examinations of one subject, before and after. */
@Command(
    name = "change",
    description =
        "Compares two examinations of one subject: change of mean jitter and of blocking with its"
            + " error; subject, muscle, side, needle, activation and settings must match.")
@SuppressWarnings("NullAway.Init")
public final class ChangeCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "BEFORE.json", description = "The first analysis.")
  private Path before;

  @Parameters(index = "1", paramLabel = "AFTER.json", description = "The second analysis.")
  private Path after;

  @Override
  public Integer call() throws IOException {
    List<String> lines = new ArrayList<>();
    try {
      for (BeforeAfter change :
          BeforeAfter.of(AnalysisJson.read(before), AnalysisJson.read(after))) {
        add(change, lines);
      }
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          before.getFileName() + " and " + after.getFileName(),
          "",
          "two examinations that can be compared",
          String.valueOf(e.getMessage()),
          "give two of one subject, analysed alike");
    }
    lines.forEach(line -> spec.commandLine().getOut().println(FaultLine.oneLine(line)));
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private static void add(BeforeAfter change, List<String> lines) {
    lines.add(change.study() + ":");
    lines.add("  before: " + side(change.before()));
    lines.add("  after:  " + side(change.after()));
    lines.add(
        "  mean jitter changed by "
            + interval(
                change.jitterChangeUs(),
                change.jitterChangeLowUs(),
                change.jitterChangeHighUs(),
                "us"));
    lines.add(
        "  signals with blocking changed by "
            + interval(
                change.blockingChangePercent(),
                change.blockingChangeLowPercent(),
                change.blockingChangeHighPercent(),
                "percent points"));
    lines.add(
        "  Other end-plates are met each time; temperature, medication and time of last dose change"
            + " jitter too.");
  }

  private static String side(BeforeAfter.Side side) {
    return String.format(
        Locale.ROOT,
        "%s, %d signals, mean %s us, %d with blocking; temperature %s, medication %s",
        side.visit().date() == null ? "date not given" : side.visit().date(),
        side.signals(),
        side.meanJitterUs() == null ? "none" : number(side.meanJitterUs()),
        side.signalsWithBlocking(),
        side.visit().temperatureDegC() == null
            ? "not given"
            : number(side.visit().temperatureDegC()) + " degC",
        side.visit().medication() == null ? "not given" : side.visit().medication());
  }

  private static String interval(
      @Nullable Double value, @Nullable Double low, @Nullable Double high, String unit) {
    if (value == null) {
      return "nothing that can be said: no numbers on one side";
    }
    String change = String.format(Locale.ROOT, "%+.1f %s", value, unit);
    return low == null || high == null
        ? change + ", no interval from so few signals"
        : change + String.format(Locale.ROOT, ", 95 %% interval %+.1f to %+.1f", low, high);
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }
}
