package org.lonefibre.app.needle;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.report.figure.FigurePng;
import org.lonefibre.report.html.FigurePage;

/** Writes a folder about a needle: the document, a page, and each figure as SVG and PNG. */
final class NeedlePage {

  private static final int PNG_PIXELS = 1920;

  private NeedlePage() {}

  static byte[] json(NeedleDocument document) throws IOException {
    return new ObjectMapper()
        .enable(SerializationFeature.INDENT_OUTPUT)
        .writeValueAsBytes(document);
  }

  static void write(NeedleDocument document, List<NeedleAnswer> answers, Path folder)
      throws IOException {
    Files.createDirectories(folder);
    WholeFile.write(folder.resolve("needle.json"), json(document));
    NeedleFigures drawer = new NeedleFigures(answers);
    Map<String, Figure> figures = drawer.figures();
    for (Map.Entry<String, Figure> figure : figures.entrySet()) {
      WholeFile.write(
          folder.resolve(figure.getKey() + ".svg"),
          figure.getValue().svg().getBytes(StandardCharsets.UTF_8));
      WholeFile.write(
          folder.resolve(figure.getKey() + ".png"), FigurePng.of(figure.getValue(), PNG_PIXELS));
    }
    WholeFile.write(
        folder.resolve("needle.html"),
        page(document, answers, drawer, figures).render().getBytes(StandardCharsets.UTF_8));
  }

  private static FigurePage page(
      NeedleDocument document,
      List<NeedleAnswer> answers,
      NeedleFigures drawer,
      Map<String, Figure> figures) {
    List<FigurePage.Section> sections = new ArrayList<>();
    sections.add(described(answers));
    if (document.claims() != null) {
      sections.add(claims(document.claims(), answers, figures.get("fall-off-relative")));
    }
    sections.add(leads(answers, figures.get("lead")));
    sections.add(reach(answers, figures.get("fall-off")));
    sections.add(potentials(answers, figures.get("potentials")));
    for (int i = 0; i < answers.size(); i++) {
      sections.add(contributions(answers.get(i), figures.get(drawer.contributionsName(i))));
    }
    sections.add(spectra(answers, drawer, figures));
    sections.add(shouldering(answers, drawer, figures));
    sections.add(NeedleInMuscle.counts(answers));
    List<Figure> distant = new ArrayList<>(listOf(figures.get("background")));
    distant.addAll(listOf(figures.get("high-pass-cost")));
    distant.addAll(listOf(figures.get("timing-error")));
    sections.add(NeedleInMuscle.numbers(answers, distant));
    sections.add(sources(answers));
    String names =
        String.join(" and ", answers.stream().map(answer -> answer.document().needle()).toList());
    return new FigurePage(
        "Needle: " + names,
        "What a fibre gives between core and reference, solved in homogeneous muscle that conducts"
            + " better along its fibres.",
        sections,
        List.of(
            "Absolute amplitudes are uncertain by perhaps half: muscle is taken as homogeneous,"
                + " and within 300 µm the fibres themselves matter. Ratios and shapes are the"
                + " message.",
            "Amplitude is maximum minus minimum. Rise time is from turn to turn of the steepest"
                + " phase. The filter has one pole and is causal.",
            "The factors multiply to the total. Each is found by switching on one thing after the"
                + " ones to its left; another order gives other factors and the same total.",
            "Not a medical device; for teaching and for planning, not for a patient."));
  }

  private static List<Figure> listOf(@org.jspecify.annotations.Nullable Figure figure) {
    return figure == null ? List.of() : List.of(figure);
  }

  private static FigurePage.Section described(List<NeedleAnswer> answers) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      NeedleDocument d = answer.document();
      rows.add(
          List.of(
              d.needle(),
              d.kind(),
              NeedleText.number(d.angleDeg()),
              NeedleText.ohm(d.coreToReferenceOhm()),
              NeedleText.text("%.1f", d.noiseUvRms()),
              NeedleText.reach(d.uptakeMm().at200Uv()),
              NeedleText.reach(d.uptakeMm().at50Uv()),
              NeedleText.text("%.0f", 100 * d.fibresPerPotential().get(0).share()),
              Integer.toString(d.mesh().triangles()),
              NeedleText.text("%.1f", 100 * d.mesh().refinementError())));
    }
    return new FigurePage.Section(
        "The needle",
        List.of(),
        List.of(),
        List.of(
            "needle",
            "kind",
            "angle (degrees)",
            "core to reference, 1 kHz",
            "noise (µV rms)",
            "200 µV at",
            "50 µV at",
            "spikes of one fibre (%)",
            "triangles",
            "error (%)"),
        rows);
  }

  private static FigurePage.Section leads(
      List<NeedleAnswer> answers, @org.jspecify.annotations.Nullable Figure figure) {
    List<String> columns = new ArrayList<>(List.of("distance (mm)"));
    answers.forEach(answer -> columns.add(answer.document().needle() + " (kΩ)"));
    List<List<String>> rows = new ArrayList<>();
    int lines = answers.get(0).document().leadField().size();
    for (int i = 0; i < lines; i++) {
      List<String> row = new ArrayList<>();
      row.add(NeedleText.number(answers.get(0).document().leadField().get(i).distanceMm()));
      for (NeedleAnswer answer : answers) {
        row.add(NeedleText.text("%.4g", answer.document().leadField().get(i).leadOhm() / 1000));
      }
      rows.add(row);
    }
    return new FigurePage.Section("Lead field", List.of(), listOf(figure), columns, rows);
  }

  private static FigurePage.Section reach(
      List<NeedleAnswer> answers, @org.jspecify.annotations.Nullable Figure figure) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      for (NeedleDocument.Reach reach : answer.document().reach()) {
        rows.add(
            List.of(
                answer.document().needle(),
                NeedleText.number(reach.fibreUm()),
                NeedleText.number(reach.amplitudeUv()),
                NeedleText.reach(reach.distanceMm())));
      }
    }
    return new FigurePage.Section(
        "How far it reaches",
        List.of(),
        listOf(figure),
        List.of("needle", "fibre (µm)", "amplitude (µV)", "at"),
        rows);
  }

  private static FigurePage.Section potentials(
      List<NeedleAnswer> answers, @org.jspecify.annotations.Nullable Figure figure) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      for (NeedleDocument.Potential p : answer.document().potentials()) {
        rows.add(
            List.of(
                answer.document().needle(),
                NeedleText.number(p.distanceMm()),
                NeedleText.number(p.highPassHz()),
                NeedleText.text("%.4g", p.amplitudeUv()),
                NeedleText.text("%.0f", p.riseTimeUs())));
      }
    }
    return new FigurePage.Section(
        "Potentials",
        List.of(),
        listOf(figure),
        List.of("needle", "distance (mm)", "high-pass (Hz)", "amplitude (µV)", "rise time (µs)"),
        rows);
  }

  private static FigurePage.Section contributions(
      NeedleAnswer answer, @org.jspecify.annotations.Nullable Figure figure) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleDocument.Part p : answer.document().contributions()) {
      List<String> row = new ArrayList<>();
      row.add(NeedleText.number(p.distanceMm()));
      row.add(NeedleText.text("%.4g", p.point()));
      for (double factor :
          new double[] {
            p.averaging(),
            p.insulation(),
            p.metal(),
            p.cannula(),
            p.contact(),
            p.cable(),
            p.filter()
          }) {
        row.add(NeedleText.text("%.3f", factor));
      }
      row.add(NeedleText.text("%.4g", p.total()));
      rows.add(row);
    }
    return new FigurePage.Section(
        "What each part does: " + answer.document().needle(),
        List.of(),
        listOf(figure),
        List.of(
            "distance (mm)",
            "point (µV)",
            "averaging",
            "insulation",
            "metal",
            "cannula",
            "contact",
            "cable",
            "filter",
            "total (µV)"),
        rows);
  }

  private static FigurePage.Section claims(
      List<NeedleDocument.Claim> claims,
      List<NeedleAnswer> answers,
      @org.jspecify.annotations.Nullable Figure figure) {
    TradeClaims of = new TradeClaims(answers.get(0), answers.get(1));
    return new FigurePage.Section(
        "What the trade holds, and what the model says",
        List.of(
            "The statements are common practice without a source. Numbers are computed here; where"
                + " the model disagrees, it says so. Absolute amplitudes are uncertain, ratios"
                + " less so."),
        listOf(figure),
        List.of("the trade holds", of.smallName(), of.largeName(), "the model", "how computed"),
        claims.stream()
            .map(
                claim ->
                    List.of(
                        claim.text(),
                        claim.smallSurface(),
                        claim.largeSurface(),
                        claim.verdict(),
                        claim.explanation()))
            .toList());
  }

  private static FigurePage.Section spectra(
      List<NeedleAnswer> answers, NeedleFigures drawer, Map<String, Figure> figures) {
    List<Figure> shown = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < answers.size(); i++) {
      shown.addAll(listOf(figures.get(drawer.named("spectrum", i))));
      NeedleDocument d = answers.get(i).document();
      for (int k = 0; k < d.spectra().size(); k++) {
        NeedleDocument.Spectrum spectrum = d.spectra().get(k);
        NeedleDocument.Radial radial = d.radial().get(k);
        rows.add(
            List.of(
                d.needle(),
                NeedleText.number(spectrum.distanceMm()),
                NeedleText.text("%.2f", spectrum.peakHz() / 1000),
                NeedleText.text(
                    "%.2f to %.2f", spectrum.lowerHalfHz() / 1000, spectrum.upperHalfHz() / 1000),
                NeedleText.text("%.2f", radial.gainRatio()),
                NeedleText.text("%.0f", radial.timeConstantUs())));
      }
    }
    rows.add(List.of("measured", "near", "1.61", "0.98 to 2.41", "0.55", "69"));
    shown.addAll(listOf(figures.get("radial")));
    return new FigurePage.Section(
        "Spectrum near and far",
        NeedleSpectra.words(answers),
        shown,
        List.of(
            "needle",
            "distance (mm)",
            "peak (kHz)",
            "half power (kHz)",
            "gain over 76 µm",
            "time constant (µs)"),
        rows);
  }

  private static FigurePage.Section shouldering(
      List<NeedleAnswer> answers, NeedleFigures drawer, Map<String, Figure> figures) {
    List<Figure> shown = new ArrayList<>();
    for (int i = 0; i < answers.size(); i++) {
      shown.addAll(listOf(figures.get(drawer.named("shouldering", i))));
      shown.addAll(listOf(figures.get(drawer.named("shouldering-examples", i))));
    }
    return new FigurePage.Section(
        "A second fibre: notch, shoulder, or hidden",
        Shouldering.words(answers),
        shown,
        List.of(),
        List.of());
  }

  private static FigurePage.Section sources(List<NeedleAnswer> answers) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      new TreeMap<>(answer.question().needle().sources())
          .forEach((key, source) -> rows.add(List.of(answer.document().needle(), key, source)));
    }
    return new FigurePage.Section(
        "Where the numbers come from",
        List.of(),
        List.of(),
        List.of("needle", "number", "source"),
        rows);
  }
}
