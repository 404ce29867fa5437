package org.lonefibre.app.demo;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.app.analyse.AnalysedExamination;
import org.lonefibre.app.analyse.ExaminationAnalyser;
import org.lonefibre.app.analyse.SummaryText;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.declaration.DeclaredStudy;
import org.lonefibre.app.declaration.SettingsChanges;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.simulate.SimulatedFiles;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.model.simulation.DemoStudy;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Makes the demo study, analyses it, writes its report, and says where to look. */
@Command(
    name = "demo",
    description =
        "Makes the demo study of an invented laboratory, analyses it and writes its report.")
@SuppressWarnings("NullAway.Init")
public final class DemoCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Option(
      names = "--out",
      defaultValue = "lonefibre-demo",
      paramLabel = "DIR",
      description = "Folder (lonefibre-demo).")
  private Path out;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public DemoCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    List<Path> files = SimulatedFiles.write(DemoStudy.plan(), subject(), out.resolve("recordings"));
    AnalysedExamination analysed =
        new ExaminationAnalyser(RecordingDoor.plain(), SettingsChanges.NONE, producer)
            .analyse(declared(files), Instant.now().truncatedTo(ChronoUnit.SECONDS).toString());
    new ReportWriter().write(analysed.examination(), out, ReportFormat.USUAL);
    SummaryText.lines(analysed.examination()).forEach(spec.commandLine().getOut()::println);
    for (Throwable failure : analysed.failures()) {
      spec.commandLine().getErr().println("lonefibre: " + FaultLine.of(failure).text());
    }
    spec.commandLine()
        .getOut()
        .println("Invented data. Read " + out.resolve("report.html") + " or report.pdf beside it.");
    spec.commandLine().getOut().flush();
    return analysed.exitCode().number();
  }

  static Subject subject() {
    return new Subject(DemoStudy.SUBJECT, (double) DemoStudy.AGE_YEARS);
  }

  static Visit visit() {
    return new Visit(
        null, DemoStudy.LABORATORY, 33.0, "none (invented)", "Simulated data: no real person.");
  }

  private static DeclaredExamination declared(List<Path> files) {
    List<DeclaredRecording> recordings = new ArrayList<>();
    for (Path file : files) {
      recordings.add(new DeclaredRecording(file, null, null, null, null, null));
    }
    return new DeclaredExamination(
        subject(),
        visit(),
        List.of(
            new DeclaredStudy(
                "extensor digitorum",
                Side.RIGHT,
                DemoStudy.NEEDLE,
                Activation.VOLUNTARY,
                null,
                recordings)),
        null);
  }
}
