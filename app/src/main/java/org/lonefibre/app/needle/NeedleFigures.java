package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.report.figure.Axis;
import org.lonefibre.report.figure.Curve;
import org.lonefibre.report.figure.Curve.Stroke;
import org.lonefibre.report.figure.CurveFigure;
import org.lonefibre.report.figure.FactorsFigure;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.report.figure.TracesFigure;

/** The figures of one needle, or of two compared, by the names of their files. */
final class NeedleFigures {

  private static final double[] SHOWN_MM = {0.05, 0.1, 0.2, 0.5};
  private static final double NEAR_MM = 0.1;
  private static final double BEFORE_US = 700;
  private static final double FARTHEST_MM = 2;
  private static final double AFTER_US = 1300;

  private final List<NeedleAnswer> answers;

  NeedleFigures(List<NeedleAnswer> answers) {
    this.answers = List.copyOf(answers);
  }

  Map<String, Figure> figures() {
    Map<String, Figure> figures = new LinkedHashMap<>();
    figures.put("lead", lead());
    figures.put("fall-off", fallOff());
    figures.put("potentials", potentials());
    for (int i = 0; i < answers.size(); i++) {
      figures.put(contributionsName(i), contributions(answers.get(i)));
    }
    if (answers.size() > 1) {
      figures.put("fall-off-relative", relative());
    }
    for (int i = 0; i < answers.size(); i++) {
      figures.put(named("spectrum", i), SpectrumFigures.spectrum(answers.get(i)));
    }
    figures.put("radial", SpectrumFigures.radial(answers));
    for (int i = 0; i < answers.size(); i++) {
      figures.put(named("shouldering", i), Shouldering.map(answers.get(i)));
      figures.put(named("shouldering-examples", i), Shouldering.examples(answers.get(i)));
    }
    figures.put("background", MuscleFigures.background(answers));
    figures.put("high-pass-cost", MuscleFigures.cost(answers));
    figures.put("timing-error", MuscleFigures.timing(answers));
    return figures;
  }

  /** Name of the figure of a needle's contributions. */
  String contributionsName(int index) {
    return named("contributions", index);
  }

  /** Name of a figure of one needle; two needles of one name keep theirs apart. */
  String named(String figure, int index) {
    String name = answers.get(index).document().needle().replaceAll("[^A-Za-z0-9-]+", "-");
    boolean again =
        index > 0
            && answers.get(0).document().needle().equals(answers.get(index).document().needle());
    return figure + "-" + name + (again ? "-" + (index + 1) : "");
  }

  private Figure lead() {
    List<Curve> curves = new ArrayList<>();
    double low = Double.MAX_VALUE;
    double high = 0;
    for (NeedleAnswer answer : answers) {
      double[] across = new double[60];
      double[] up = new double[60];
      for (int i = 0; i < across.length; i++) {
        across[i] = 0.02 * Math.pow(150, i / 59.0);
        up[i] = answer.leadOhm(across[i]) / 1000;
        low = Math.min(low, up[i]);
        high = Math.max(high, up[i]);
      }
      curves.add(new Curve(answer.document().needle(), stroke(curves.size()), across, up));
    }
    return CurveFigure.draw(
        "What 1 A at a distance gives: the lead along the core's normal",
        new Axis("distance from the core (mm)", Axis.Spacing.LOGARITHMIC, 0.02, 3),
        new Axis("lead (kΩ)", Axis.Spacing.LOGARITHMIC, low / 1.2, high * 1.2),
        curves);
  }

  private Figure fallOff() {
    List<Curve> curves = new ArrayList<>();
    double low = 20;
    double high = 100;
    for (NeedleAnswer answer : answers) {
      int size = answer.fallOff().size();
      double[] across = new double[size];
      double[] up = new double[size];
      for (int i = 0; i < size; i++) {
        across[i] = answer.fallOff().distanceMm(i);
        up[i] = answer.fallOff().amplitudeUv(i);
        high = Math.max(high, up[i]);
      }
      curves.add(
          new Curve(
              NeedleText.text(
                  "%s, %s Hz",
                  answer.document().needle(), NeedleText.number(answer.question().highPassHz())),
              stroke(curves.size()),
              across,
              up));
    }
    curves.add(
        new Curve("", Stroke.GUIDE, new double[] {0.03, FARTHEST_MM}, new double[] {200, 200}));
    curves.add(
        new Curve("", Stroke.GUIDE, new double[] {0.03, FARTHEST_MM}, new double[] {50, 50}));
    return CurveFigure.draw(
        NeedleText.text(
            "Amplitude of a fibre of %s µm; lines at 200 and 50 µV",
            NeedleText.number(answers.get(0).question().fibre().diameterUm())),
        new Axis(
            "distance from the core to the fibre's axis (mm)",
            Axis.Spacing.LOGARITHMIC,
            0.03,
            FARTHEST_MM),
        new Axis(
            "amplitude, maximum minus minimum (µV)", Axis.Spacing.LOGARITHMIC, low, 1.5 * high),
        curves);
  }

  private Figure relative() {
    List<Curve> curves = new ArrayList<>();
    double low = 1;
    double high = 1;
    for (NeedleAnswer answer : answers) {
      int size = answer.fallOff().size();
      double[] across = new double[size];
      double[] up = new double[size];
      double near = answer.filteredUv(NEAR_MM, 0);
      for (int i = 0; i < size; i++) {
        across[i] = answer.fallOff().distanceMm(i);
        up[i] = answer.filteredUv(across[i], 0) / near;
        high = Math.max(high, up[i]);
        low = across[i] <= 1.1 * FARTHEST_MM ? Math.min(low, up[i]) : low;
      }
      curves.add(new Curve(answer.document().needle(), stroke(curves.size()), across, up));
    }
    return CurveFigure.draw(
        "Near over far: amplitude relative to that at 0.1 mm, unfiltered",
        new Axis(
            "distance from the core to the fibre's axis (mm)",
            Axis.Spacing.LOGARITHMIC,
            0.03,
            FARTHEST_MM),
        new Axis("amplitude over that at 0.1 mm", Axis.Spacing.LOGARITHMIC, low / 1.2, high * 1.2),
        curves);
  }

  private Figure potentials() {
    List<TracesFigure.Panel> panels = new ArrayList<>();
    double radiusMm = answers.get(0).question().fibre().diameterUm() / 2000;
    for (double distanceMm : SHOWN_MM) {
      if (distanceMm < radiusMm) {
        continue;
      }
      List<Curve> lines = new ArrayList<>();
      for (NeedleAnswer answer : answers) {
        double filterHz = answer.question().highPassHz();
        FibrePotential raw = answer.potential(distanceMm, 0);
        String name = answers.size() > 1 ? answer.document().needle() + ", " : "";
        lines.add(
            trace(
                name + NeedleText.number(filterHz) + " Hz",
                stroke(lines.size()),
                answer.potential(distanceMm, filterHz),
                raw.steepestUs()));
        if (answers.size() == 1) {
          lines.add(trace("unfiltered", Stroke.DASHED, raw, raw.steepestUs()));
        }
      }
      panels.add(new TracesFigure.Panel(NeedleText.number(distanceMm) + " mm", lines));
    }
    return TracesFigure.draw("Potential of the same fibre at four distances", panels);
  }

  private static Curve trace(
      String name, Stroke stroke, FibrePotential potential, double middleUs) {
    double[] values = potential.copyUv();
    int from = (int) Math.max(0, (middleUs - BEFORE_US - potential.startUs()) / potential.stepUs());
    int to =
        (int)
            Math.min(
                values.length - 1.0,
                (middleUs + AFTER_US - potential.startUs()) / potential.stepUs());
    double[] across = new double[to - from + 1];
    double[] up = new double[to - from + 1];
    for (int i = from; i <= to; i++) {
      across[i - from] =
          (potential.startUs() + i * potential.stepUs() - middleUs + BEFORE_US) / 1000;
      up[i - from] = values[i];
    }
    return new Curve(name, stroke, across, up);
  }

  private static Figure contributions(NeedleAnswer answer) {
    List<FactorsFigure.Condition> conditions = new ArrayList<>();
    List<NeedleDocument.Part> parts = answer.document().contributions();
    int step = Math.max(1, (int) Math.ceil(parts.size() / 3.0));
    for (int i = 0; i < parts.size(); i += step) {
      NeedleDocument.Part p = parts.get(i);
      conditions.add(
          new FactorsFigure.Condition(
              NeedleText.text(
                  "%s mm: %s → %s µV",
                  NeedleText.number(p.distanceMm()), voltage(p.point()), voltage(p.total())),
              List.of(
                  p.averaging(),
                  p.insulation(),
                  p.metal(),
                  p.cannula(),
                  p.contact(),
                  p.cable(),
                  p.filter(),
                  p.total() / p.point())));
    }
    return FactorsFigure.draw(
        "From a point to the needle, amplitude: " + answer.document().needle(),
        List.of(
            "averaging",
            "insulation",
            "metal",
            "cannula",
            "contact",
            "cable",
            "filter",
            "all together"),
        conditions);
  }

  /** Three digits at most: the model is not better known. */
  private static String voltage(double amplitudeUv) {
    double unit = Math.pow(10, Math.max(0, Math.floor(Math.log10(amplitudeUv)) - 2));
    return NeedleText.text(
        amplitudeUv < 10 ? "%.1f" : "%.0f",
        amplitudeUv < 10 ? amplitudeUv : Math.rint(amplitudeUv / unit) * unit);
  }

  static Stroke stroke(int index) {
    return index == 0 ? Stroke.SOLID : Stroke.DASHED;
  }
}
