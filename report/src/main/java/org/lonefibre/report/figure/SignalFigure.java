package org.lonefibre.report.figure;

import java.util.List;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.report.document.Rounded;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.Words;

/**
 * One signal as an argument: its sweeps superimposed with the potentials named, the shape of each
 * potential against noise, and its interval in every sweep.
 */
public final class SignalFigure {

  private static final int WIDTH = 680;
  private static final int HEIGHT = 156;
  private static final double SHAPES_FROM = 296;
  private static final double SHAPES_TO = 456;
  private static final double BETWEEN = 12;

  private SignalFigure() {}

  /** Draws a signal. */
  public static Figure draw(SignalEntry signal) {
    String summary = summary(signal);
    Svg svg = new Svg(WIDTH, HEIGHT, summary);
    new SweepsPanel(signal).draw(svg);
    List<PotentialResult> potentials = signal.potentials();
    int panels = Math.max(1, potentials.size());
    double width = (SHAPES_TO - SHAPES_FROM - BETWEEN * (panels - 1)) / panels;
    for (int i = 0; i < potentials.size(); i++) {
      double left = SHAPES_FROM + i * (width + BETWEEN);
      new ShapePanel(signal.words(), potentials.get(i), left, width).draw(svg);
    }
    new SequencePanel(signal).draw(svg);
    return new Figure(svg.close(), summary);
  }

  private static String summary(SignalEntry signal) {
    Words words = signal.words();
    return words.say(
        "signal.summary",
        signal.label(),
        signal.measures().presentSweeps(),
        words.count(signal.measures().sweeps(), "sweep"),
        signal.valueName(),
        signal.measures().blockedSweeps(),
        signal.measures().jitterUs() == null
            ? words.say("signal.no-jitter")
            : Rounded.jitterWithUnit(signal.measures().jitterUs()),
        signal.standingText());
  }
}
