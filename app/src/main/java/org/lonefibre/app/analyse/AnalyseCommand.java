package org.lonefibre.app.analyse;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.SettingsChanges;
import org.lonefibre.app.declaration.SettingsFile;
import org.lonefibre.app.declaration.SettingsInForce;
import org.lonefibre.app.declaration.StudyFile;
import org.lonefibre.app.limits.LaboratoryOptions;
import org.lonefibre.app.recording.ReadingOptions;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.workbench.study.Volunteers;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Reads recordings, measures, judges, and writes the study. */
@Command(
    name = "analyse",
    description = {
      "Reads recordings, measures jitter and blocking, compares with the one limit set that fits,"
          + " and writes the study.",
      "Muscle, age, needle and activation may be left out: everything is measured, nothing is"
          + " compared, and a finding says what is missing."
    },
    footer = {
      "",
      "With --out the folder receives analysis.json, report.html, report.pdf, signals.csv (a line a"
          + " signal) and intervals.csv (a line a sweep). Without --out and --json only the summary"
          + " is printed."
    })
@SuppressWarnings("NullAway.Init")
public final class AnalyseCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(arity = "0..*", paramLabel = "FILE", description = "Recordings, one site a file.")
  private List<Path> files = List.of();

  @Option(
      names = "--study",
      paramLabel = "FILE.yaml",
      description = "Study file that names subject, visit, studies and recordings.")
  private @Nullable Path study;

  @Mixin private StudyOptions options;

  @Option(
      names = "--high-pass-hz",
      paramLabel = "HZ",
      description = "Corner of the high-pass (single-fibre 500, else 1000).")
  private @Nullable String highPassHz;

  @Option(
      names = "--low-pass-hz",
      paramLabel = "HZ",
      description = "Corner of the low-pass (10000).")
  private @Nullable String lowPassHz;

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      description = "Settings to change, as --print-settings prints them.")
  private @Nullable Path settings;

  @Option(
      names = "--print-settings",
      description = "Print the settings in force, each with its source, and stop.")
  private boolean printSettings;

  @Mixin private ReadingOptions reading;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder for the results.")
  private @Nullable Path out;

  @Option(
      names = "--json",
      paramLabel = "-",
      description = "With -, print analysis.json to standard output and nothing else.")
  private @Nullable String json;

  @Option(
      names = "--keep",
      description = "Keep the study and its recordings in the store, to be reviewed with serve.")
  private boolean keep;

  @Option(
      names = "--healthy-volunteer",
      description =
          "With --keep: the subject is a healthy volunteer, whose signals count for the laboratory's"
              + " own limits (controls --kept).")
  private boolean healthyVolunteer;

  @Mixin private DataOptions data;

  @Mixin private LaboratoryOptions laboratory;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public AnalyseCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    if (json != null && !json.equals("-")) {
      throw new InputFault(
          "--json", "", "-, for standard output", json, "use --out DIR to write files");
    }
    if (healthyVolunteer && !keep) {
      throw new InputFault(
          "--healthy-volunteer",
          "",
          "--keep with it",
          "nothing",
          "controls come from kept studies");
    }
    SettingsChanges changes = changes();
    if (printSettings) {
      print(SettingsInForce.of(options.needleKey(), changes).listEntries());
      return ExitCode.DONE.number();
    }
    DeclaredExamination declared = declared();
    if (out != null) {
      Files.createDirectories(out);
    }
    AnalysedExamination analysed =
        new ExaminationAnalyser(reading.door(), changes, producer, laboratory.limits(keep, data))
            .analyse(declared, Instant.now().truncatedTo(ChronoUnit.SECONDS).toString());
    if (analysed.hasRecordings()) {
      if (keep) {
        keep(declared, analysed);
      }
      write(analysed);
    }
    PrintWriter err = spec.commandLine().getErr();
    for (Throwable failure : analysed.failures()) {
      err.println("lonefibre: " + FaultLine.of(failure).text());
      if (Boolean.TRUE.equals(spec.findOption("--debug").getValue())) {
        failure.printStackTrace(err);
      }
    }
    err.flush();
    return analysed.exitCode().number();
  }

  private void keep(DeclaredExamination declared, AnalysedExamination analysed) throws IOException {
    try (Store store = data.open()) {
      KeptStudy kept =
          new KeptExamination(store, System.getProperty("user.name"))
              .keep(declared, analysed.examination());
      if (healthyVolunteer) {
        store
            .studies()
            .note(kept.id(), Volunteers.FIELD, Volunteers.YES, System.getProperty("user.name"));
      }
      spec.commandLine().getErr().println("lonefibre: kept as study " + kept.id());
      spec.commandLine().getErr().flush();
    }
  }

  private DeclaredExamination declared() throws IOException {
    Path studyFile = study;
    if (studyFile == null) {
      if (files.isEmpty()) {
        throw new InputFault(
            "analyse", "", "a recording or --study FILE.yaml", "neither", "name one");
      }
      return options.declare(files);
    }
    if (!files.isEmpty()) {
      throw new InputFault(
          "analyse",
          "",
          "either recordings or --study",
          "both",
          "name the recordings in the study file");
    }
    return options.fill(StudyFile.read(studyFile));
  }

  private SettingsChanges changes() throws IOException {
    SettingsChanges changes = settings == null ? SettingsChanges.NONE : SettingsFile.read(settings);
    changes = changed(changes, "conditioning.highPassHz", highPassHz, "--high-pass-hz");
    return changed(changes, "conditioning.lowPassHz", lowPassHz, "--low-pass-hz");
  }

  private static SettingsChanges changed(
      SettingsChanges changes, String name, @Nullable String value, String option)
      throws InputFault {
    if (value == null) {
      return changes;
    }
    try {
      Double.parseDouble(value);
    } catch (NumberFormatException e) {
      throw new InputFault(option, "", "a number of Hz", value, "write the number alone");
    }
    return changes.with(name, value, "option " + option);
  }

  private void print(List<SettingsStamp.Entry> entries) {
    int width =
        entries.stream().mapToInt(e -> e.name().length() + e.value().length()).max().orElse(0);
    for (SettingsStamp.Entry entry : entries) {
      String setting = entry.name() + ": " + entry.value();
      spec.commandLine()
          .getOut()
          .println(setting + " ".repeat(width + 4 - setting.length()) + "# " + entry.source());
    }
    spec.commandLine().getOut().flush();
  }

  private void write(AnalysedExamination analysed) throws IOException {
    if (out != null) {
      new ReportWriter().write(analysed.examination(), out, ReportFormat.USUAL);
    }
    if (json != null) {
      ByteArrayOutputStream document = new ByteArrayOutputStream(1 << 20);
      AnalysisJson.write(analysed.examination(), document);
      PrintStream standard = System.out;
      document.writeTo(standard);
      standard.flush();
      if (standard.checkError()) {
        throw new IOException("standard output was closed");
      }
      return;
    }
    SummaryText.lines(analysed.examination()).forEach(spec.commandLine().getOut()::println);
    if (out != null) {
      spec.commandLine().getOut().println("written to " + out + ": report.html and others");
    }
    spec.commandLine().getOut().flush();
  }
}
