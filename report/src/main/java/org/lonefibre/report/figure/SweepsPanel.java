package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.report.document.Rounded;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.SignalEntry.Kind;
import org.lonefibre.report.document.SweepPoint;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/** Sweeps superimposed on the trigger or the stimulus, its potentials labelled, scale bars. */
final class SweepsPanel {

  private static final int MOST_SWEEPS = 40;
  private static final int RIGHT = 244;
  private static final int TOP = 30;
  private static final int BOTTOM = 136;
  private static final double BEFORE_MS = 1.2;
  private static final double AFTER_MS = 1.6;

  private final SignalEntry signal;

  SweepsPanel(SignalEntry signal) {
    this.signal = signal;
  }

  void draw(Svg svg) {
    SweepDrawing drawing = signal.drawing();
    if (drawing == null || drawing.valuesUv().isEmpty() || drawing.valuesUv().get(0).size() < 2) {
      svg.text(
          0, 10, Anchor.START, Ink.TEXT, 10, Weight.BOLD, signal.words().say("sweeps.not-kept"));
      return;
    }
    List<Integer> chosen = chosen(drawing.valuesUv().size());
    Set<Integer> blocked = blocked();
    boolean showsBlocked = chosen.stream().anyMatch(i -> blocked.contains(sweepNumber(drawing, i)));
    svg.text(
        0,
        10,
        Anchor.START,
        Ink.TEXT,
        10,
        Weight.BOLD,
        signal
            .words()
            .say(
                showsBlocked ? "sweeps.title.blocked" : "sweeps.title",
                chosen.size(),
                signal.measures().sweeps()));
    Scale time = time(drawing);
    Scale voltage = voltage(drawing, chosen, time);
    for (int index : chosen) {
      boolean isBlocked = blocked.contains(sweepNumber(drawing, index));
      svg.trace(
          path(drawing, index, time, voltage),
          isBlocked ? Ink.TEXT : Ink.SWEEP,
          isBlocked ? 0.8 : 0.4,
          isBlocked ? Dash.SHORT : Dash.SOLID);
    }
    labels(svg, time);
    bars(svg, time, voltage);
  }

  private static int sweepNumber(SweepDrawing drawing, int index) {
    return index < drawing.sweeps().size() ? drawing.sweeps().get(index) : -1;
  }

  private Set<Integer> blocked() {
    Set<Integer> numbers = new HashSet<>();
    for (SweepPoint point : signal.points()) {
      if (point.state() == SweepState.BLOCKED) {
        numbers.add(point.sweep());
      }
    }
    return numbers;
  }

  /** All, or evenly chosen ones. */
  private static List<Integer> chosen(int sweeps) {
    int count = Math.min(sweeps, MOST_SWEEPS);
    List<Integer> chosen = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      chosen.add((int) ((long) i * sweeps / count));
    }
    return chosen;
  }

  private Scale time(SweepDrawing drawing) {
    double first = signal.kind() == Kind.PAIR ? 0 : Double.MAX_VALUE;
    double last = signal.kind() == Kind.PAIR ? 0 : -Double.MAX_VALUE;
    for (PotentialResult potential : signal.potentials()) {
      first = Math.min(first, potential.offsetMs());
      last = Math.max(last, potential.offsetMs());
    }
    double start = drawing.startMs();
    double end = start + drawing.stepMs() * (drawing.valuesUv().get(0).size() - 1);
    double from = Math.max(start, first - BEFORE_MS);
    double to = Math.min(end, last + AFTER_MS);
    return to > from ? new Scale(from, to, 0, RIGHT) : new Scale(start, end, 0, RIGHT);
  }

  private static Scale voltage(SweepDrawing drawing, List<Integer> chosen, Scale time) {
    double low = Double.MAX_VALUE;
    double high = -Double.MAX_VALUE;
    for (int index : chosen) {
      List<Double> values = drawing.valuesUv().get(index);
      for (int i = 0; i < values.size(); i++) {
        if (time.holds(drawing.startMs() + i * drawing.stepMs())) {
          low = Math.min(low, values.get(i));
          high = Math.max(high, values.get(i));
        }
      }
    }
    return high >= low
        ? Scale.holding(low, high, 1e-3, BOTTOM, TOP)
        : new Scale(-1, 1, BOTTOM, TOP);
  }

  private static String path(SweepDrawing drawing, int index, Scale time, Scale voltage) {
    List<Double> values = drawing.valuesUv().get(index);
    Trace trace = new Trace();
    for (int i = 0; i < values.size(); i++) {
      double at = drawing.startMs() + i * drawing.stepMs();
      if (time.holds(at)) {
        trace.add(time.at(at), voltage.clamped(values.get(i)));
      }
    }
    return trace.data();
  }

  private void labels(Svg svg, Scale time) {
    List<PotentialResult> potentials = signal.potentials();
    for (int i = 0; i < potentials.size(); i++) {
      PotentialResult potential = potentials.get(i);
      if (!time.holds(potential.offsetMs())) {
        continue;
      }
      double x = time.at(potential.offsetMs());
      String role =
          signal.kind() == Kind.END_PLATE
              ? potential.id()
              : signal.words().say(i == 0 ? "sweeps.trigger" : "sweeps.paired", potential.id());
      String text = Svg.fitted(role, 76, 9);
      svg.line(x, 25, x, BOTTOM, Ink.RULE, 0.6, Dash.SHORT);
      boolean toLeft = i == 0 ? otherIsRight(potentials) : !otherIsRight(potentials);
      double width = Svg.width(text, 9);
      Anchor anchor = toLeft && x + 3 - width >= 0 ? Anchor.END : Anchor.START;
      double place = anchor == Anchor.END ? x + 3 : Math.min(x - 3, RIGHT + 40 - width);
      svg.text(place, 22, anchor, Ink.TEXT, 9, Weight.PLAIN, text);
    }
  }

  private static boolean otherIsRight(List<PotentialResult> potentials) {
    return potentials.size() > 1 && potentials.get(1).offsetMs() >= potentials.get(0).offsetMs();
  }

  private void bars(Svg svg, Scale time, Scale voltage) {
    double ms = Scale.step((time.high() - time.low()) / 8);
    double length = time.at(time.low() + ms) - time.at(time.low());
    svg.line(0, 147, length, 147, Ink.TEXT, 1.4, Dash.SOLID);
    svg.quiet(
        length + 5,
        150,
        Anchor.START,
        signal
            .words()
            .say(
                signal.kind() == Kind.PAIR ? "sweeps.from-trigger" : "sweeps.after-stimulus",
                Scale.label(ms)));
    double uv = Scale.step((voltage.high() - voltage.low()) / 4);
    double height = voltage.at(voltage.low()) - voltage.at(voltage.low() + uv);
    svg.line(RIGHT + 6, BOTTOM - height, RIGHT + 6, BOTTOM, Ink.TEXT, 1.4, Dash.SOLID);
    svg.quiet(RIGHT + 11, BOTTOM - height / 2 + 3, Anchor.START, voltageLabel(uv));
  }

  private String voltageLabel(double uv) {
    boolean calibrated = signal.potentials().stream().anyMatch(p -> isGiven(p.amplitudeUv()));
    return calibrated
        ? uv < 1000 ? Scale.label(uv) + " µV" : Rounded.shortest(uv / 1000, 2) + " mV"
        : signal.words().say("sweeps.no-unit");
  }

  private static boolean isGiven(@Nullable Double value) {
    return value != null;
  }
}
