package org.lonefibre.app.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Renders an analysis again. */
@Command(name = "report", description = "Renders an analysis.json, or a kept study, again.")
@SuppressWarnings("NullAway.Init")
public final class ReportCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Mixin private ResultOptions result;

  @Option(
      names = "--format",
      split = ",",
      paramLabel = "F",
      description = "html, pdf, csv, json, fhir, dicom; the first four if none is named.")
  private @Nullable Set<String> formats;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder; beside FILE if not given.")
  private @Nullable Path out;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public ReportCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    Set<ReportFormat> wanted = wanted();
    ResultOptions.Result named = result.read("report", producer);
    Path folder = out == null ? result.folder() : out;
    new ReportWriter()
        .write(named.examination(), named.closing(), result.language(), folder, wanted);
    spec.commandLine().getOut().println("written to " + folder);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private Set<ReportFormat> wanted() throws InputFault {
    Set<String> named = formats;
    if (named == null) {
      return ReportFormat.USUAL;
    }
    EnumSet<ReportFormat> wanted = EnumSet.noneOf(ReportFormat.class);
    for (String name : named) {
      try {
        wanted.add(ReportFormat.valueOf(name.strip().toUpperCase(Locale.ROOT)));
      } catch (IllegalArgumentException e) {
        throw new InputFault(
            "--format", "", "html, pdf, csv, json, fhir or dicom", name, "name one of them");
      }
    }
    return wanted;
  }
}
