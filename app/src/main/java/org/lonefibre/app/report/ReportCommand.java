package org.lonefibre.app.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.serve.ChainAnalyst;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.Exports;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Renders an analysis again. */
@Command(name = "report", description = "Renders an analysis.json, or a kept study, again.")
@SuppressWarnings("NullAway.Init")
public final class ReportCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(arity = "0..1", paramLabel = "FILE.json", description = "An analysis.json.")
  private @Nullable Path file;

  @Option(
      names = "--kept",
      paramLabel = "ID",
      description = "A kept study in place of a file, with its decisions; store list shows them.")
  private @Nullable String kept;

  @Mixin private DataOptions data;

  @Option(names = "--format", split = ",", paramLabel = "F", description = "html, pdf, csv, json.")
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
    Path from = file;
    if ((from == null) == (kept == null)) {
      throw new InputFault(
          "report", "", "an analysis.json or --kept ID", "both or neither", "name one");
    }
    Path beside = from == null ? null : from.toAbsolutePath().getParent();
    Path folder = out == null ? (beside == null ? Path.of(".") : beside) : out;
    if (from == null) {
      writeKept(String.valueOf(kept), folder, wanted);
    } else {
      new ReportWriter().write(AnalysisJson.read(from), folder, wanted);
    }
    spec.commandLine().getOut().println("written to " + folder);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private void writeKept(String id, Path folder, Set<ReportFormat> wanted) throws IOException {
    try (Store store = data.open()) {
      if (store.studies().find(id).isEmpty()) {
        throw new InputFault("--kept", "", "a kept study", id, "see \"store list\"");
      }
      Desk desk = new Desk(store, new ChainAnalyst(producer, store.limits()::laboratory));
      Files.createDirectories(folder);
      for (String name : Exports.NAMES) {
        String ending = name.substring(name.indexOf('.') + 1).toUpperCase(Locale.ROOT);
        if (wanted.contains(ReportFormat.valueOf(ending))) {
          Exports.Document document =
              Exports.of(
                  name,
                  desk.open(id),
                  store.studies().notes(id),
                  store.studies().signatures().list(id));
          WholeFile.write(folder.resolve(name), document.bytes());
        }
      }
    } catch (Refusal e) {
      throw new InputFault("--kept", "", "a study with a result", e.sentence(), "analyse it first");
    }
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
