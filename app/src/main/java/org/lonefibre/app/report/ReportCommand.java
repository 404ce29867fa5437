package org.lonefibre.app.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.document.AnalysisJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Renders an analysis again. */
@Command(name = "report", description = "Renders an analysis.json again.")
@SuppressWarnings("NullAway.Init")
public final class ReportCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE.json", description = "An analysis.json.")
  private Path file;

  @Option(names = "--format", split = ",", paramLabel = "F", description = "html, pdf, csv, json.")
  private @Nullable Set<String> formats;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder; beside FILE if not given.")
  private @Nullable Path out;

  @Override
  public Integer call() throws IOException {
    Set<ReportFormat> wanted = wanted();
    Path beside = file.toAbsolutePath().getParent();
    Path folder = out == null ? (beside == null ? Path.of(".") : beside) : out;
    new ReportWriter().write(AnalysisJson.read(file), folder, wanted);
    spec.commandLine().getOut().println("written to " + folder);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private Set<ReportFormat> wanted() throws InputFault {
    Set<String> named = formats;
    if (named == null) {
      EnumSet<ReportFormat> all = EnumSet.allOf(ReportFormat.class);
      return all;
    }
    EnumSet<ReportFormat> wanted = EnumSet.noneOf(ReportFormat.class);
    for (String name : named) {
      try {
        wanted.add(ReportFormat.valueOf(name.strip().toUpperCase(Locale.ROOT)));
      } catch (IllegalArgumentException e) {
        throw new InputFault("--format", "", "html, pdf, csv or json", name, "name one of them");
      }
    }
    return wanted;
  }
}
