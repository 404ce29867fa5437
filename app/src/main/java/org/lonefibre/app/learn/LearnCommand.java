package org.lonefibre.app.learn;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.lonefibre.app.terminal.ExitCode;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * Does once, on an invented recording, what is done most, and ends: the launcher keeps the classes
 * that this needed in an archive, from which later starts take them.
 */
@Command(
    name = "learn",
    hidden = true,
    description = "Does once what is done most; the launcher learns which classes that needs.")
@SuppressWarnings("NullAway.Init")
public final class LearnCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "DIR", description = "Folder for what comes of it.")
  private Path folder;

  @Override
  public Integer call() {
    CommandLine program = spec.root().commandLine();
    Path recordings = folder.resolve("recordings");
    List<String[]> steps =
        List.of(
            new String[] {
              "simulate", "--sites", "1", "--duration-s", "4", "--out", recordings.toString()
            },
            new String[] {
              "analyse",
              recordings.resolve("site01.edf").toString(),
              "--out",
              folder.resolve("study").toString()
            },
            new String[] {
              "serve", "--no-browser", "--stop-at-once", "--data", folder.resolve("data").toString()
            });
    for (String[] step : steps) {
      int code = program.execute(step);
      if (code != ExitCode.DONE.number()) {
        return code;
      }
    }
    return ExitCode.DONE.number();
  }
}
