package org.lonefibre.app.intervals;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.app.recording.FileHash;
import org.lonefibre.app.terminal.DocumentJson;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Refusals;
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

  @Option(
      names = "--json",
      paramLabel = "-",
      description = "With -, print the document to standard output and nothing else.")
  private @Nullable String json;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public IntervalsCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    if (json != null && !json.equals("-")) {
      throw new InputFault("--json", "", "-, for standard output", json, "leave the name out");
    }
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    List<ListedIntervals.Listed> lists = new ArrayList<>();
    List<Refusal> refused = new ArrayList<>();
    boolean ours = false;
    for (Path file : files) {
      String name = String.valueOf(file.getFileName());
      try {
        IntervalList list = IntervalList.read(file, unit);
        ListedIntervals.Listed listed =
            new ListedJitter(list, activation).listed(name, FileHash.sha256(file));
        lists.add(listed);
        if (json == null) {
          out.println(FaultLine.oneLine(name) + ":");
          ListedJitter.lines(listed).forEach(out::println);
        }
      } catch (IOException | RuntimeException e) {
        FaultLine line = FaultLine.of(e);
        err.println("lonefibre: " + line.text());
        refused.add(Refusals.of(name, e));
        ours |= line.exitCode() == ExitCode.OUR_FAULT;
      }
    }
    out.flush();
    err.flush();
    if (json != null) {
      DocumentJson.print(
          new ListedIntervals(ListedIntervals.SCHEMA, producer, activation, lists, refused));
    }
    if (ours) {
      return ExitCode.OUR_FAULT.number();
    }
    ExitCode code =
        refused.isEmpty()
            ? ExitCode.DONE
            : lists.isEmpty() ? ExitCode.INPUT_AT_FAULT : ExitCode.SOME_REFUSED;
    return code.number();
  }
}
