package org.lonefibre.app;

import java.io.PrintWriter;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.analyse.AnalyseCommand;
import org.lonefibre.app.chain.ChainCommand;
import org.lonefibre.app.change.ChangeCommand;
import org.lonefibre.app.controls.ControlsCommand;
import org.lonefibre.app.copy.CopyCommand;
import org.lonefibre.app.demo.DemoCommand;
import org.lonefibre.app.density.DensityCommand;
import org.lonefibre.app.inspect.InspectCommand;
import org.lonefibre.app.intervals.IntervalsCommand;
import org.lonefibre.app.learn.LearnCommand;
import org.lonefibre.app.limits.LimitsCommand;
import org.lonefibre.app.needle.NeedleCommand;
import org.lonefibre.app.report.ReportCommand;
import org.lonefibre.app.report.SendCommand;
import org.lonefibre.app.serve.ServeCommand;
import org.lonefibre.app.simulate.SimulateCommand;
import org.lonefibre.app.store.StoreCommand;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.validate.ValidateCommand;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** The program: finds the command and turns what went wrong into one line and an exit code. */
@Command(
    name = "lonefibre",
    mixinStandardHelpOptions = true,
    version = "lonefibre " + Lonefibre.VERSION,
    description = {
      "From a needle recording to a jitter study that can be defended.",
      "Not a medical device: facts and cautions for a licensed physician."
    },
    footer = {
      "",
      "Exit codes: 0 done, 2 input or usage at fault, 3 some files refused, 1 a fault of the"
          + " program."
    })
public final class Lonefibre implements Callable<Integer> {

  static final String VERSION = "0.1.0";

  @Option(
      names = "--debug",
      scope = CommandLine.ScopeType.INHERIT,
      description = "Show the stack trace of a failure.")
  private boolean debug;

  /** The program. */
  public static void main(String[] arguments) {
    Locale.setDefault(Locale.ROOT);
    Logger.getLogger("").setLevel(Level.OFF);
    System.exit(run(arguments));
  }

  static int run(String... arguments) {
    Lonefibre program = new Lonefibre();
    Producer producer = new Producer("Lonefibre", VERSION);
    CommandLine line = new CommandLine(program);
    line.addSubcommand(new AnalyseCommand(producer));
    line.addSubcommand(new InspectCommand(producer));
    line.addSubcommand(new CopyCommand());
    line.addSubcommand(new IntervalsCommand(producer));
    line.addSubcommand(new LimitsCommand());
    line.addSubcommand(new ControlsCommand(producer));
    line.addSubcommand(new DensityCommand(producer));
    line.addSubcommand(new ChangeCommand());
    line.addSubcommand(new ChainCommand());
    line.addSubcommand(new SimulateCommand());
    line.addSubcommand(new NeedleCommand());
    line.addSubcommand(new ValidateCommand());
    line.addSubcommand(new ReportCommand(producer));
    line.addSubcommand(new SendCommand(producer));
    line.addSubcommand(new ServeCommand(producer));
    line.addSubcommand(new StoreCommand());
    line.addSubcommand(new DemoCommand(producer));
    line.addSubcommand(new LearnCommand());
    line.getSubcommands().values().forEach(c -> c.getCommandSpec().mixinStandardHelpOptions(true));
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setParameterExceptionHandler(
        (failure, given) -> {
          PrintWriter err = failure.getCommandLine().getErr();
          err.println(
              "lonefibre: "
                  + FaultLine.oneLine(String.valueOf(failure.getMessage()))
                  + "; "
                  + advice(failure));
          err.flush();
          return ExitCode.INPUT_AT_FAULT.number();
        });
    line.setExecutionExceptionHandler(
        (failure, command, parsed) -> {
          FaultLine fault = FaultLine.of(failure);
          command.getErr().println("lonefibre: " + fault.text());
          if (program.debug || Arrays.asList(arguments).contains("--debug")) {
            failure.printStackTrace(command.getErr());
          }
          command.getErr().flush();
          return fault.exitCode().number();
        });
    try {
      return line.execute(arguments);
    } catch (OutOfMemoryError | StackOverflowError | LinkageError e) {
      FaultLine fault = FaultLine.of(e);
      System.err.println("lonefibre: " + fault.text());
      return fault.exitCode().number();
    }
  }

  private static String advice(CommandLine.ParameterException failure) {
    String command = failure.getCommandLine().getCommandSpec().qualifiedName();
    if (failure instanceof CommandLine.UnmatchedArgumentException unmatched
        && !unmatched.getSuggestions().isEmpty()) {
      return "perhaps " + String.join(" or ", unmatched.getSuggestions()) + " is meant";
    }
    return "see " + command + " --help";
  }

  @Override
  public Integer call() {
    CommandLine.usage(this, System.err);
    return ExitCode.INPUT_AT_FAULT.number();
  }
}
