package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.model.fibre.ShoulderMap;
import org.lonefibre.model.fibre.ShoulderMap.Appearance;
import org.lonefibre.report.figure.Curve;
import org.lonefibre.report.figure.Curve.Stroke;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.report.figure.MapFigure;
import org.lonefibre.report.figure.TracesFigure;

/** A second fibre in a potential: document and figures. */
final class Shouldering {

  static final double DISTANCE_MM = 0.1;
  static final double JITTER_US = 30;
  static final double[] SIZES = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1};
  static final double[] DELAYS_US = {
    -400, -350, -300, -250, -200, -150, -100, -50, 0, 50, 100, 150, 200, 250, 300, 350, 400
  };
  private static final int EXAMPLE = 4;
  private static final double SHOWN_MS = 1;

  private Shouldering() {}

  static NeedleDocument.Shouldering part(ShoulderMap map) {
    List<NeedleDocument.Shoulder> cells = new ArrayList<>();
    for (int s = 0; s < map.sizes(); s++) {
      for (int d = 0; d < map.delays(); d++) {
        cells.add(
            new NeedleDocument.Shoulder(
                map.sizeRatio(s), map.delayUs(d), word(map.appearance(s, d)), map.biasRatio(s, d)));
      }
    }
    return new NeedleDocument.Shouldering(DISTANCE_MM, JITTER_US, cells);
  }

  private static String word(Appearance appearance) {
    return appearance.name().toLowerCase(Locale.ROOT);
  }

  static Figure map(NeedleAnswer answer) {
    ShoulderMap map = answer.shoulders();
    List<String> columns = new ArrayList<>();
    for (int d = 0; d < map.delays(); d++) {
      columns.add(signed(map.delayUs(d)));
    }
    List<MapFigure.Row> rows = new ArrayList<>();
    for (int s = 0; s < map.sizes(); s++) {
      List<MapFigure.Cell> cells = new ArrayList<>();
      for (int d = 0; d < map.delays(); d++) {
        double bias = map.biasRatio(s, d);
        cells.add(
            new MapFigure.Cell(
                shade(map.appearance(s, d)), NeedleText.text(bias < 9.95 ? "%.2f" : "%.0f", bias)));
      }
      rows.add(new MapFigure.Row(NeedleText.number(map.sizeRatio(s)), cells));
    }
    return MapFigure.draw(
        "A second fibre in the potential: " + answer.document().needle(),
        "delay of the second fibre (µs); in each cell measured over true jitter",
        columns,
        NeedleText.text(
            "size of the second fibre over the first, which lies at %s mm; high-pass %s Hz",
            NeedleText.number(DISTANCE_MM), NeedleText.number(answer.question().highPassHz())),
        rows,
        List.of(
            new MapFigure.Meaning(shade(Appearance.HIDDEN), "hidden"),
            new MapFigure.Meaning(shade(Appearance.SHOULDER), "shows as a shoulder"),
            new MapFigure.Meaning(shade(Appearance.NOTCH), "shows as a notch")));
  }

  private static String signed(double delayUs) {
    return delayUs == 0 ? "0" : NeedleText.text("%+.0f", delayUs).replace('-', '−');
  }

  private static MapFigure.Shade shade(Appearance appearance) {
    return switch (appearance) {
      case HIDDEN -> MapFigure.Shade.PLAIN;
      case SHOULDER -> MapFigure.Shade.HATCHED;
      case NOTCH -> MapFigure.Shade.DARK;
    };
  }

  /** A second fibre of half the size, hidden, as a shoulder and as a notch. */
  static Figure examples(NeedleAnswer answer) {
    ShoulderMap map = answer.shoulders();
    List<TracesFigure.Panel> panels = new ArrayList<>();
    for (Appearance wanted : List.of(Appearance.HIDDEN, Appearance.SHOULDER, Appearance.NOTCH)) {
      int delay = worst(map, wanted);
      if (delay >= 0) {
        panels.add(
            new TracesFigure.Panel(
                NeedleText.text(
                    "%s: %s µs, jitter × %.2f",
                    word(wanted), signed(map.delayUs(delay)), map.biasRatio(EXAMPLE, delay)),
                List.of(
                    trace("recorded", Stroke.SOLID, map.sum(EXAMPLE, delay).copyUv(), map),
                    trace("first fibre", Stroke.DASHED, map.alone().copyUv(), map),
                    trace("second", Stroke.DOTTED, map.second(EXAMPLE, delay).copyUv(), map))));
      }
    }
    return TracesFigure.draw(
        "A second fibre of half the size: " + answer.document().needle(), panels);
  }

  /** The delay at which a half-sized fibre that shows so biases most; -1 if none does. */
  private static int worst(ShoulderMap map, Appearance wanted) {
    int found = -1;
    double most = -1;
    for (int d = 0; d < map.delays(); d++) {
      double bias = Math.abs(Math.log(map.biasRatio(EXAMPLE, d)));
      if (map.appearance(EXAMPLE, d) == wanted && bias > most) {
        most = bias;
        found = d;
      }
    }
    return found;
  }

  private static Curve trace(String name, Stroke stroke, double[] values, ShoulderMap map) {
    double startMs = map.alone().startUs() / 1000;
    double stepMs = map.alone().stepUs() / 1000;
    int from = (int) Math.round((-SHOWN_MS - startMs) / stepMs);
    int count = (int) Math.round(2 * SHOWN_MS / stepMs) + 1;
    double[] across = new double[count];
    double[] up = new double[count];
    for (int i = 0; i < count; i++) {
      across[i] = i * stepMs;
      up[i] = values[from + i];
    }
    return new Curve(name, stroke, across, up);
  }

  static List<String> words(List<NeedleAnswer> answers) {
    List<String> words = new ArrayList<>();
    words.add(
        NeedleText.text(
            "Two fibres of one unit, each end-plate with a mean consecutive difference of %s µs of"
                + " its own. The second lies as far off as its size asks for. Arrival is where the"
                + " recorded potential crosses half of the height of its steep phase. Numbers under"
                + " 1: the jitter is measured too small, the two average each other out; over 1:"
                + " too large.",
            NeedleText.number(JITTER_US)));
    for (NeedleAnswer answer : answers) {
      ShoulderMap map = answer.shoulders();
      double least = Double.MAX_VALUE;
      double most = 0;
      int hidden = 0;
      for (int s = 0; s < map.sizes(); s++) {
        for (int d = 0; d < map.delays(); d++) {
          if (map.appearance(s, d) == Appearance.HIDDEN) {
            hidden++;
            least = Math.min(least, map.biasRatio(s, d));
            most = Math.max(most, map.biasRatio(s, d));
          }
        }
      }
      if (hidden > 0) {
        words.add(
            NeedleText.text(
                "%s: of the %d cells %d are hidden; there the eye sees one fibre and the jitter is"
                    + " measured at %.2f to %.2f of the true one.",
                answer.document().needle(), map.sizes() * map.delays(), hidden, least, most));
      }
    }
    return words;
  }
}
