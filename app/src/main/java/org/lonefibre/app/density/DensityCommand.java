package org.lonefibre.app.density;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.density.DensitySite;
import org.lonefibre.analysis.density.FibreDensity;
import org.lonefibre.analysis.reference.WrittenTable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.app.analyse.AnalysedExamination;
import org.lonefibre.app.analyse.ExaminationAnalyser;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.declaration.DeclaredStudy;
import org.lonefibre.app.declaration.SettingsChanges;
import org.lonefibre.app.recording.ReadingOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.document.AnalysisJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Fibre density of sites chosen at random. */
@Command(
    name = "density",
    description = {
      "Fibre density with a single-fibre electrode, from sites chosen at random: recordings, a site"
          + " each, whose time-locked potentials are counted; an analysis.json of such recordings; or"
          + " a table of counts, columns site, potentials and, if need be, chosen (random or jitter).",
      "Sites chosen for jitter are selected and must not be given; a table that says so leaves them"
          + " out."
    })
@SuppressWarnings("NullAway.Init")
public final class DensityCommand implements Callable<Integer> {

  private static final String NEEDLE = "single-fibre";

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "1..*",
      paramLabel = "FILE",
      description = "Recordings, an analysis.json, or a table of counts (.csv).")
  private List<Path> files = List.of();

  @Option(names = "--needle", required = true, paramLabel = "NEEDLE", description = "single-fibre.")
  private String needle;

  @Option(
      names = "--channel",
      paramLabel = "SIGNAL",
      description = "Signal of the recordings: its label, or its number from 1.")
  private @Nullable String channel;

  @Mixin private ReadingOptions reading;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public DensityCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    if (!needle.equals(NEEDLE)) {
      throw new InputFault(
          "--needle",
          "",
          NEEDLE,
          needle,
          "fibre density has no meaning with another needle: its uptake is wider");
    }
    Path only = files.size() == 1 ? files.get(0) : Path.of("");
    String name = String.valueOf(only.getFileName()).toLowerCase(Locale.ROOT);
    if (!name.endsWith(".csv")) {
      return recorded(name.endsWith(".json") ? AnalysisJson.read(only) : analysed());
    }
    ofTable(only);
    return ExitCode.DONE.number();
  }

  /** Counts the potentials of each recording; those at fault are named, and the rest counted. */
  private int recorded(Examination examination) throws InputFault {
    List<String> lines = new ArrayList<>();
    List<Integer> potentials = new ArrayList<>();
    for (Study study : examination.studies()) {
      if (study.activation() != Activation.VOLUNTARY || !NEEDLE.equals(study.needle())) {
        lines.add("left out: a study that is not voluntary, or not with a single-fibre needle");
        continue;
      }
      for (RecordingResult recording : study.recordings()) {
        Optional<DensitySite> found = DensitySite.of(recording);
        if (found.isEmpty()) {
          lines.add("left out: " + recording.site() + ": no potential of 200 uV and 300 us");
          continue;
        }
        DensitySite site = found.get();
        potentials.add(site.potentials());
        lines.add(
            String.format(
                Locale.ROOT,
                "  %s: %d%s%s",
                site.site(),
                site.potentials(),
                site.slow() == 0 ? "" : ", and not counted, rising too slowly: " + site.slow(),
                site.composites() == 0
                    ? ""
                    : ", of them composite, with more fibres: " + site.composites()));
      }
    }
    for (Refusal refusal : examination.refused()) {
      lines.add("refused: " + refusal.file() + ": " + refusal.reason());
    }
    if (potentials.isEmpty()) {
      throw new InputFault(
          "density", "", "a site with a potential of 200 uV and 300 us", "none", "record some");
    }
    say(FibreDensity.of(potentials), 0);
    lines.forEach(line -> spec.commandLine().getOut().println(FaultLine.oneLine(line)));
    spec.commandLine().getOut().flush();
    return examination.refused().isEmpty()
        ? ExitCode.DONE.number()
        : ExitCode.SOME_REFUSED.number();
  }

  private Examination analysed() throws IOException {
    List<DeclaredRecording> recordings = new ArrayList<>();
    for (Path file : files) {
      recordings.add(new DeclaredRecording(file, null, channel, null, null, null));
    }
    DeclaredStudy study =
        new DeclaredStudy(null, null, NEEDLE, Activation.VOLUNTARY, null, recordings);
    AnalysedExamination analysed =
        new ExaminationAnalyser(reading.door(), SettingsChanges.NONE, producer)
            .analyse(
                new DeclaredExamination(
                    new Subject(null, null), Visit.UNDECLARED, List.of(study), null),
                Instant.now().truncatedTo(ChronoUnit.SECONDS).toString());
    if (!analysed.hasRecordings()) {
      throw new InputFault(
          "density",
          "",
          "a recording that can be read",
          analysed.failures().isEmpty() ? "none" : FaultLine.of(analysed.failures().get(0)).text(),
          "correct it");
    }
    return analysed.examination();
  }

  private void ofTable(Path file) throws IOException {
    WrittenTable table =
        WrittenTable.of(
            String.valueOf(file.getFileName()),
            new String(Files.readAllBytes(file), StandardCharsets.UTF_8),
            List.of("site", "potentials"),
            List.of("chosen"));
    List<Integer> potentials = new ArrayList<>();
    Set<String> sites = new HashSet<>();
    int selected = 0;
    for (int i = 0; i < table.size(); i++) {
      String site = table.required(i, "site");
      if (!sites.add(site)) {
        throw table.fault(i, "site", "each site once", site + " again", "keep one line");
      }
      Double count = table.number(i, "potentials", 1, 40, "potentials");
      if (count == null || count != Math.rint(count)) {
        throw table.fault(
            i,
            "potentials",
            "a whole number",
            table.text(i, "potentials").isEmpty() ? "nothing" : table.text(i, "potentials"),
            "count the potentials, the trigger among them");
      }
      if (table.text(i, "chosen").equals("jitter")) {
        selected++;
      } else {
        potentials.add((int) Math.round(count));
      }
    }
    if (potentials.isEmpty()) {
      throw table.fault(0, "chosen", "a site chosen at random", "none", "record some");
    }
    say(FibreDensity.of(potentials), selected);
  }

  private void say(FibreDensity density, int selected) {
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "fibre density %.2f potentials a site, %d sites%s",
            density.potentialsPerSite(),
            density.sites(),
            density
                .interval()
                .map(
                    i ->
                        String.format(
                            Locale.ROOT, ", 95 %% interval %.2f to %.2f", i.low(), i.high()))
                .orElse("; no interval from one site")));
    if (selected > 0) {
      lines.add("  left out, chosen for jitter: " + selected);
    }
    density.notes().forEach(note -> lines.add("  " + note));
    lines.forEach(spec.commandLine().getOut()::println);
    spec.commandLine().getOut().flush();
  }
}
