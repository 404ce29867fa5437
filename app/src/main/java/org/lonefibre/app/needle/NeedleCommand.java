package org.lonefibre.app.needle;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.declaration.NeedleFile;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.leadfield.LeadFieldCache;
import org.lonefibre.model.leadfield.LeadFieldException;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.tissue.Tissue;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Solves a needle in muscle and says what it hears and why. */
@Command(
    name = "needle",
    description = {
      "Solves and describes a needle: lead field, fall-off, and what averaging, insulation, metal,"
          + " contact, cable and filter do.",
      "The shaft lies across the fibres and the core faces across them."
    },
    footer = {
      "",
      "With --out the folder receives needle.json, needle.html and each figure as SVG and PNG.",
      "Solved needles are kept in the cache folder and used again only if everything is the same."
    })
@SuppressWarnings("NullAway.Init")
public final class NeedleCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Option(
      names = "--needle",
      defaultValue = "single-fibre",
      paramLabel = "NAME|FILE",
      description =
          "single-fibre, concentric-small, concentric-standard, monopolar, or a needle file"
              + " (single-fibre).")
  private String needle;

  @Option(
      names = "--angle-deg",
      defaultValue = "0",
      paramLabel = "A",
      description = "Turn about the core's outward normal (0).")
  private double angleDeg;

  @Option(
      names = "--across-s-per-m",
      paramLabel = "X",
      description = "Conductivity across the fibres (0.063).")
  private @Nullable Double acrossSPerM;

  @Option(
      names = "--along-s-per-m",
      paramLabel = "Y",
      description = "Conductivity along the fibres (0.33).")
  private @Nullable Double alongSPerM;

  @Option(
      names = "--contact-ohm-m2",
      paramLabel = "Z",
      description = "Contact of core and cannula with the tissue (0).")
  private @Nullable Double contactOhmM2;

  @Option(
      names = "--contact-capacitance-f-per-m2",
      paramLabel = "C",
      description = "Capacitance of that contact instead; metal in tissue has about 0.2.")
  private @Nullable Double contactFPerM2;

  @Option(
      names = "--distances-mm",
      split = ",",
      paramLabel = "a,b,c",
      description = "Distances from the core along its normal (0.02 to 2).")
  private @Nullable List<Double> distancesMm;

  @Option(
      names = "--high-pass-hz",
      paramLabel = "F",
      description = "One-pole causal high-pass (side-port 500, else 1000; 0 for none).")
  private @Nullable Double highPassHz;

  @Option(
      names = "--fibre-um",
      defaultValue = "55",
      paramLabel = "D",
      description = "Diameter of the fibre (55).")
  private double fibreUm;

  @Option(
      names = "--spike-share",
      defaultValue = "0.1",
      paramLabel = "R",
      description = "Part of a spike's steepest slope that makes a fibre count as in it (0.1).")
  private double spikeShareRatio;

  @Option(
      names = "--spike-high-passes-hz",
      split = ",",
      paramLabel = "a,b,c",
      description = "Further filters for which the fibres in a spike are counted (none).")
  private @Nullable List<Double> spikeHighPassesHz;

  @Option(
      names = "--reach-uv",
      split = ",",
      paramLabel = "a,b,c",
      description = "Amplitudes whose distance is told, by fibre size (200,50).")
  private @Nullable List<Double> reachUv;

  @Option(
      names = "--compare",
      paramLabel = "OTHER",
      description = "Another needle, under the same conditions.")
  private @Nullable String compare;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder for the page and figures.")
  private @Nullable Path out;

  @Option(
      names = "--json",
      paramLabel = "-",
      description = "With -, print the document to standard output and nothing else.")
  private @Nullable String json;

  @Option(
      names = "--cache",
      paramLabel = "DIR",
      description = "Folder that keeps solved needles (.cache/lonefibre in the home folder).")
  private @Nullable Path cache;

  @Override
  public Integer call() throws IOException {
    if (json != null && !json.equals("-")) {
      throw new InputFault(
          "--json", "", "-, for standard output", json, "use --out DIR to write files");
    }
    List<NeedleAnswer> answers = new ArrayList<>();
    LeadFieldSolver solver = new LeadFieldSolver(new LeadFieldCache(cacheFolder()));
    NeedleQuestion first = question(NeedleFile.find(needle));
    NeedleQuestion second = compare == null ? null : question(NeedleFile.find(compare));
    answers.add(answer(first, solver));
    if (second != null) {
      answers.add(answer(second, solver));
    }
    NeedleDocument document = answers.get(0).document();
    if (answers.size() > 1) {
      document =
          document.with(
              new TradeClaims(answers.get(0), answers.get(1)).all(), answers.get(1).document());
    }
    if (out != null) {
      NeedlePage.write(document, answers, out);
    }
    if (json != null) {
      print(document);
      return ExitCode.DONE.number();
    }
    for (NeedleAnswer answer : answers) {
      NeedleText.lines(answer.document()).forEach(spec.commandLine().getOut()::println);
      spec.commandLine().getOut().println();
    }
    if (out != null) {
      spec.commandLine().getOut().println("written to " + out + ": needle.html and others");
    }
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private static NeedleAnswer answer(NeedleQuestion question, LeadFieldSolver solver)
      throws InputFault {
    try {
      return NeedleAnswer.to(question, solver);
    } catch (LeadFieldException e) {
      throw new InputFault(
          "needle " + question.needle().name(),
          "",
          "a needle whose field can be solved to 1 %",
          String.valueOf(e.getMessage()),
          "change its geometry or the contact");
    }
  }

  private NeedleQuestion question(Needle described) throws InputFault {
    if (contactOhmM2 != null && contactFPerM2 != null) {
      throw new InputFault(
          "needle",
          "--contact-ohm-m2, --contact-capacitance-f-per-m2",
          "one of them",
          "both",
          "leave one out");
    }
    within("--angle-deg", angleDeg, -360, 360, "degrees");
    Tissue usual = Tissue.defaults();
    double across = acrossSPerM == null ? usual.acrossSPerM() : acrossSPerM;
    double along = alongSPerM == null ? usual.alongSPerM() : alongSPerM;
    within("--across-s-per-m", across, 0.001, 10, "S/m");
    within("--along-s-per-m", along, 0.001, 10, "S/m");
    if (along / across > 30 || across / along > 30) {
      throw new InputFault(
          "--along-s-per-m",
          "",
          "at most 30 times the conductivity across, and no less than a 30th",
          NeedleText.number(along / across) + " times",
          "check both values");
    }
    double ohmM2 = contactOhmM2 == null ? 0 : contactOhmM2;
    within("--contact-ohm-m2", ohmM2, 0, 10, "ohm m2");
    if (contactFPerM2 != null) {
      within("--contact-capacitance-f-per-m2", contactFPerM2, 0.001, 1000, "F/m2");
    }
    double filterHz = highPassHz == null ? NeedleQuestion.usualHighPassHz(described) : highPassHz;
    within("--high-pass-hz", filterHz, 0, 5000, "Hz");
    within("--fibre-um", fibreUm, 10, 150, "um");
    within("--spike-share", spikeShareRatio, 0.01, 0.9, "of the steepest slope");
    return new NeedleQuestion(
        described,
        LeadFieldSettings.defaults()
            .withTissue(new Tissue(across, along, usual.insideSPerM()))
            .withAngleDeg(angleDeg),
        ohmM2,
        contactFPerM2,
        distances(),
        filterHz,
        FibreGeometry.defaults().withDiameterUm(fibreUm),
        spikeShareRatio,
        all("--spike-high-passes-hz", spikeHighPassesHz, List.of(), 0, 5000, "Hz"),
        all("--reach-uv", reachUv, NeedleQuestion.USUAL_REACH_UV, 1, 10_000, "uV"));
  }

  private static List<Double> all(
      String option,
      @Nullable List<Double> found,
      List<Double> usual,
      double low,
      double high,
      String unit)
      throws InputFault {
    for (double value : found == null ? usual : found) {
      within(option, value, low, high, unit);
    }
    return found == null ? usual : found;
  }

  private List<Double> distances() throws InputFault {
    if (distancesMm == null) {
      return List.of(0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 1.0, 2.0);
    }
    for (double distanceMm : distancesMm) {
      within("--distances-mm", distanceMm, 0.005, 20, "mm");
    }
    return List.copyOf(new TreeSet<>(distancesMm));
  }

  private static void within(String option, double value, double low, double high, String unit)
      throws InputFault {
    if (!(value >= low && value <= high)) {
      throw new InputFault(
          option,
          "",
          NeedleText.number(low) + " to " + NeedleText.number(high) + " " + unit,
          NeedleText.number(value),
          "check the value and its unit");
    }
  }

  private Path cacheFolder() {
    return cache != null
        ? cache
        : Path.of(System.getProperty("user.home", "."), ".cache", "lonefibre");
  }

  private static void print(NeedleDocument document) throws IOException {
    PrintStream standard = System.out;
    standard.write(NeedlePage.json(document));
    standard.println();
    standard.flush();
    if (standard.checkError()) {
      throw new IOException("standard output was closed");
    }
  }
}
