package org.lonefibre.app.intervals;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.formats.text.IntervalList;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Computes what plain lists of intervals allow, and says what they do not. */
@Command(
    name = "intervals",
    description = {
      "Computes jitter from plain lists of intervals, one pair a file: an interval a line, or the"
          + " time of its discharge in seconds and the interval; - for a blocked one.",
      "What cannot be judged without the signal is said: the grade of the potentials and the timing"
          + " floor."
    })
@SuppressWarnings("NullAway.Init")
public final class IntervalsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(arity = "1..*", paramLabel = "FILE", description = "Lists of intervals.")
  private List<Path> files = List.of();

  @Option(names = "--unit", required = true, paramLabel = "UNIT", description = "us or ms.")
  private IntervalList.Unit unit;

  @Option(
      names = "--activation",
      paramLabel = "ACTIVATION",
      defaultValue = "voluntary",
      description = "voluntary (intervals of pairs) or stimulated (latencies).")
  private Activation activation;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    int refused = 0;
    boolean ours = false;
    for (Path file : files) {
      try {
        IntervalList list = IntervalList.read(file, unit);
        out.println(FaultLine.oneLine(String.valueOf(file.getFileName())) + ":");
        new ListedJitter(list, activation).lines().forEach(out::println);
      } catch (IOException | RuntimeException e) {
        FaultLine line = FaultLine.of(e);
        err.println("lonefibre: " + line.text());
        ours |= line.exitCode() == ExitCode.OUR_FAULT;
        refused++;
      }
    }
    out.flush();
    err.flush();
    if (ours) {
      return ExitCode.OUR_FAULT.number();
    }
    ExitCode code =
        refused == 0
            ? ExitCode.DONE
            : refused == files.size() ? ExitCode.INPUT_AT_FAULT : ExitCode.SOME_REFUSED;
    return code.number();
  }
}
