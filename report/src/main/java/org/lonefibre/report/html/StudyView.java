package org.lonefibre.report.html;

import java.util.List;
import org.lonefibre.report.document.StudyDocument;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.report.figure.SignalFigure;
import org.lonefibre.report.figure.StripPlot;

/**
 * A study with its figures.
 *
 * @param document the study
 * @param strip all signals against the limits
 * @param signals each signal with its figure
 */
record StudyView(StudyDocument document, List<Figure> strip, List<SignalView> signals) {

  static StudyView of(StudyDocument document) {
    return new StudyView(
        document,
        StripPlot.draw(document),
        document.signals().stream().map(s -> new SignalView(s, SignalFigure.draw(s))).toList());
  }
}
