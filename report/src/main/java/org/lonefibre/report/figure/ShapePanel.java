package org.lonefibre.report.figure;

import java.util.Collections;
import java.util.List;
import org.lonefibre.analysis.study.PotentialDrawing;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.report.document.Rounded;
import org.lonefibre.report.document.Words;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * The evidence of a grade: the mean shape with the standard deviation from sweep to sweep as a
 * band, and below it that deviation against what noise alone explains.
 */
final class ShapePanel {

  private static final int TOP = 28;
  private static final int MIDDLE = 84;
  private static final int LOWER = 98;
  private static final int BOTTOM = 138;

  private final Words words;
  private final PotentialResult potential;
  private final double left;
  private final double width;

  ShapePanel(Words words, PotentialResult potential, double left, double width) {
    this.words = words;
    this.potential = potential;
    this.left = left;
    this.width = width;
  }

  void draw(Svg svg) {
    String title = potential.id() + ": " + words.grade(potential.grade());
    svg.text(left, 10, Anchor.START, Ink.TEXT, 10, Weight.BOLD, Svg.fitted(title, width + 6, 10));
    if (potential.singleFibreProbability() != null) {
      svg.quiet(
          left,
          21,
          Anchor.START,
          words.say("shape.probability", Rounded.probability(potential.singleFibreProbability())));
    }
    PotentialDrawing drawing = potential.drawing();
    if (drawing == null || drawing.meanUv().size() < 2) {
      svg.quiet(left, 60, Anchor.START, words.say("shape.not-kept"));
      return;
    }
    Scale time = new Scale(0, drawing.meanUv().size() - 1, left, left + width);
    mean(svg, drawing, time);
    deviation(svg, drawing, time);
  }

  private void mean(Svg svg, PotentialDrawing drawing, Scale time) {
    List<Double> mean = drawing.meanUv();
    double low = Double.MAX_VALUE;
    double high = -Double.MAX_VALUE;
    for (int i = 0; i < mean.size(); i++) {
      low = Math.min(low, mean.get(i) - sd(drawing, i));
      high = Math.max(high, mean.get(i) + sd(drawing, i));
    }
    Scale voltage = Scale.holding(low, high, 1e-3, MIDDLE, TOP);
    Trace curve = new Trace();
    Trace upper = new Trace();
    for (int i = 0; i < mean.size(); i++) {
      curve.add(time.at(i), voltage.at(mean.get(i)));
      upper.add(time.at(i), voltage.at(mean.get(i) + sd(drawing, i)));
    }
    StringBuilder band = new StringBuilder(upper.data());
    for (int i = mean.size() - 1; i >= 0; i--) {
      band.append('L')
          .append(Math.round(time.at(i) * 10))
          .append(' ')
          .append(Math.round(voltage.at(mean.get(i) - sd(drawing, i)) * 10));
    }
    svg.area(band.toString(), Ink.BAND);
    svg.trace(curve.data(), Ink.TEXT, 1, Dash.SOLID);
    double steps = Scale.step(time.high() * drawing.stepUs() / 5) / drawing.stepUs();
    double length = time.at(steps) - time.at(0);
    svg.line(left, MIDDLE + 7, left + length, MIDDLE + 7, Ink.TEXT, 1.4, Dash.SOLID);
    svg.quiet(
        left + length + 4,
        MIDDLE + 10,
        Anchor.START,
        Scale.label(steps * drawing.stepUs()) + " µs");
  }

  private void deviation(Svg svg, PotentialDrawing drawing, Scale time) {
    if (drawing.sdUv().isEmpty()) {
      return;
    }
    double most = Math.max(Collections.max(drawing.sdUv()), drawing.noiseUv());
    Scale scale = new Scale(0, Math.max(most * 1.05, 1e-6), BOTTOM, LOWER);
    svg.line(left, BOTTOM, left + width, BOTTOM, Ink.RULE, 0.6, Dash.SOLID);
    double noise = scale.at(drawing.noiseUv());
    svg.line(left, noise, left + width, noise, Ink.TEXT, 0.9, Dash.SHORT);
    Trace curve = new Trace();
    for (int i = 0; i < drawing.sdUv().size() && i < drawing.meanUv().size(); i++) {
      curve.add(time.at(i), scale.at(drawing.sdUv().get(i)));
    }
    svg.trace(curve.data(), Ink.MARK, 1.1, Dash.SOLID);
    String most1 = Rounded.shortest(Collections.max(drawing.sdUv()), 0);
    String noise1 = Rounded.shortest(drawing.noiseUv(), 0);
    svg.quiet(left, 150, Anchor.START, words.say("shape.sd", most1, noise1));
  }

  private static double sd(PotentialDrawing drawing, int index) {
    return index < drawing.sdUv().size() ? drawing.sdUv().get(index) : 0;
  }
}
