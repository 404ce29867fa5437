package org.lonefibre.app.report;

import java.io.IOException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.serve.ChainAnalyst;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Language;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.Exports;
import org.lonefibre.workbench.study.OpenStudy;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Which result: an analysis.json, or a kept study with what people added to it. */
@SuppressWarnings("NullAway.Init")
final class ResultOptions {

  /** A result and what people added to it. */
  record Result(Examination examination, Closing closing) {}

  @Parameters(arity = "0..1", paramLabel = "FILE.json", description = "An analysis.json.")
  private @Nullable Path file;

  @Option(
      names = "--kept",
      paramLabel = "ID",
      description = "A kept study in place of a file, with its decisions; store list shows them.")
  private @Nullable String kept;

  @Mixin private DataOptions data;

  @Option(
      names = "--language",
      paramLabel = "L",
      defaultValue = "en",
      description = "Language of the pages: en or de; en if not given.")
  private String language;

  /** The language of the pages. */
  Language language() throws InputFault {
    try {
      return Language.named(language);
    } catch (IllegalArgumentException e) {
      throw new InputFault("--language", "", "en or de", language, "name one of them");
    }
  }

  /** Where files go that are not told where to go: beside the file. */
  Path folder() {
    Path beside = file == null ? null : file.toAbsolutePath().getParent();
    return beside == null ? Path.of(".") : beside;
  }

  /** Enters into the record of changes of a kept study that its report was sent. */
  void noteSending(String what, String outcome) throws IOException {
    String id = kept;
    if (id != null) {
      try (Store store = data.open()) {
        store.studies().noteSending(id, what, outcome, System.getProperty("user.name"));
      }
    }
  }

  Result read(String command, Producer producer) throws IOException {
    Path from = file;
    String id = kept;
    if (from != null && id == null) {
      return new Result(AnalysisJson.read(from), Closing.NONE);
    }
    if (id == null || from != null) {
      throw new InputFault(
          command, "", "an analysis.json or --kept ID", "both or neither", "name one");
    }
    try (Store store = data.open()) {
      if (store.studies().find(id).isEmpty()) {
        throw new InputFault("--kept", "", "a kept study", id, "see \"store list\"");
      }
      OpenStudy study =
          new Desk(store, new ChainAnalyst(producer, store.limits()::laboratory)).open(id);
      Examination current = study.current();
      if (current == null) {
        throw new InputFault("--kept", "", "a study with a result", id, "analyse it first");
      }
      return new Result(
          current,
          Exports.closing(study, store.studies().notes(id), store.studies().signatures().list(id)));
    } catch (Refusal e) {
      throw new InputFault("--kept", "", "a study with a result", e.sentence(), "analyse it first");
    }
  }
}
