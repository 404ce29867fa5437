package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.fibre.PotentialSpectrum;
import org.lonefibre.model.fibre.RadialFilter;
import org.lonefibre.report.figure.Axis;
import org.lonefibre.report.figure.Curve;
import org.lonefibre.report.figure.Curve.Stroke;
import org.lonefibre.report.figure.CurveFigure;
import org.lonefibre.report.figure.Figure;

/** Figures of spectra and of the gain over a step of distance. */
final class SpectrumFigures {

  private static final double[] SHOWN_MM = {0.1, 0.3, 1};
  private static final double[] STEPS_FROM_MM = {0.03, 0.05, 0.08, 0.12, 0.2, 0.35, 0.6, 1};
  private static final Stroke[] STROKES = {Stroke.SOLID, Stroke.DASHED, Stroke.DOTTED};
  private static final double HIGHEST_HZ = 5000;
  private static final double STEP_HZ = 25;
  private static final double HALF_POWER = Math.sqrt(0.5);

  private SpectrumFigures() {}

  static Figure spectrum(NeedleAnswer answer) {
    List<Curve> curves = new ArrayList<>();
    for (double distanceMm : SHOWN_MM) {
      PotentialSpectrum spectrum = answer.spectrum(distanceMm);
      double most = spectrum.amplitudeUvPerHz(spectrum.peakHz());
      int count = (int) (HIGHEST_HZ / STEP_HZ) + 1;
      double[] across = new double[count];
      double[] up = new double[count];
      for (int i = 0; i < count; i++) {
        across[i] = i * STEP_HZ / 1000;
        up[i] = spectrum.amplitudeUvPerHz(i * STEP_HZ) / most;
      }
      curves.add(
          new Curve(
              NeedleText.text(
                  "%s mm, peak %.2f kHz", NeedleText.number(distanceMm), spectrum.peakHz() / 1000),
              STROKES[curves.size()],
              across,
              up));
    }
    double peak = NeedleSpectra.PEAK_HZ / 1000;
    curves.add(
        new Curve(
            "measured half power",
            Stroke.BAR,
            new double[] {NeedleSpectra.LOWER_HALF_HZ / 1000, NeedleSpectra.UPPER_HALF_HZ / 1000},
            new double[] {HALF_POWER, HALF_POWER}));
    curves.add(
        new Curve(
            "measured peak, 1.61 kHz",
            Stroke.GUIDE,
            new double[] {peak, peak},
            new double[] {0, 1.05}));
    return CurveFigure.draw(
        "Spectrum near and far, unfiltered: " + answer.document().needle(),
        new Axis("frequency (kHz)", Axis.Spacing.LINEAR, 0, HIGHEST_HZ / 1000),
        new Axis("amplitude over its largest", Axis.Spacing.LINEAR, 0, 1.05),
        curves);
  }

  static Figure radial(List<NeedleAnswer> answers) {
    List<Curve> curves = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      double radiusMm = answer.question().fibre().diameterUm() / 2000;
      List<double[]> points = new ArrayList<>();
      for (double distanceMm : STEPS_FROM_MM) {
        if (distanceMm >= radiusMm) {
          RadialFilter filter =
              RadialFilter.between(
                  answer.spectrum(distanceMm), answer.spectrum(distanceMm + NeedleSpectra.STEP_MM));
          points.add(new double[] {distanceMm, filter.gainRatio()});
        }
      }
      curves.add(
          new Curve(
              answer.document().needle(),
              NeedleFigures.stroke(curves.size()),
              points.stream().mapToDouble(point -> point[0]).toArray(),
              points.stream().mapToDouble(point -> point[1]).toArray()));
    }
    curves.add(
        new Curve(
            "measured, 0.55",
            Stroke.GUIDE,
            new double[] {0.03, 1},
            new double[] {NeedleSpectra.GAIN_RATIO, NeedleSpectra.GAIN_RATIO}));
    return CurveFigure.draw(
        "What 76 µm more distance leaves of a potential",
        new Axis("distance of the nearer place (mm)", Axis.Spacing.LOGARITHMIC, 0.03, 1),
        new Axis("gain over 76 µm", Axis.Spacing.LINEAR, 0, 1),
        curves);
  }
}
