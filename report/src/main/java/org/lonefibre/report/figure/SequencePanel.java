package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.SweepPoint;
import org.lonefibre.report.document.Words;
import org.lonefibre.report.figure.Svg.Anchor;
import org.lonefibre.report.figure.Svg.Dash;
import org.lonefibre.report.figure.Svg.Weight;

/**
 * The interval or latency of each sweep in order of time. Neighbouring sweeps that give a
 * difference are joined by a line; sweeps without a value stand in a lane of their own below, one a
 * state.
 */
final class SequencePanel {

  private static final int LEFT = 520;
  private static final int RIGHT = 676;
  private static final int TOP = 20;
  private static final int AXIS = 138;
  private static final int LANE = 10;
  private static final double LEAST_SPAN_US = 40;

  private final SignalEntry signal;

  SequencePanel(SignalEntry signal) {
    this.signal = signal;
  }

  void draw(Svg svg) {
    svg.text(
        472,
        10,
        Anchor.START,
        Ink.TEXT,
        10,
        Weight.BOLD,
        signal.words().say("sequence.title", Words.capital(signal.valueName())));
    List<SweepPoint> points = signal.points();
    if (points.isEmpty()) {
      svg.quiet(472, 60, Anchor.START, signal.words().say("sequence.none"));
      return;
    }
    List<SweepState> lanes = new ArrayList<>();
    for (SweepState state : SweepState.values()) {
      if (state != SweepState.PRESENT && points.stream().anyMatch(p -> p.state() == state)) {
        lanes.add(state);
      }
    }
    int bottom = AXIS - lanes.size() * LANE - (lanes.isEmpty() ? 0 : 3);
    Scale time =
        Scale.holding(
            points.get(0).timeS(), points.get(points.size() - 1).timeS(), 1e-3, LEFT + 4, RIGHT);
    axes(svg, time, bottom);
    values(svg, time, bottom);
    for (int i = 0; i < lanes.size(); i++) {
      lane(svg, time, lanes.get(i), bottom + 11 + i * LANE);
    }
  }

  private void axes(Svg svg, Scale time, int bottom) {
    svg.line(LEFT, TOP, LEFT, bottom, Ink.TEXT);
    svg.line(LEFT, AXIS, RIGHT, AXIS, Ink.TEXT);
    for (double tick : time.ticks(5)) {
      double x = time.at(tick);
      svg.line(x, AXIS, x, AXIS + 3, Ink.TEXT);
      if (x < RIGHT - 14) {
        svg.quiet(x, AXIS + 12, Anchor.MIDDLE, Scale.label(tick));
      }
    }
    svg.quiet(RIGHT + 3, AXIS + 12, Anchor.END, "s");
  }

  private void values(Svg svg, Scale time, int bottom) {
    double low = Double.MAX_VALUE;
    double high = -Double.MAX_VALUE;
    for (SweepPoint point : signal.points()) {
      Double value = point.valueUs();
      if (value != null) {
        low = Math.min(low, value);
        high = Math.max(high, value);
      }
    }
    if (high < low) {
      svg.quiet(
          LEFT + 8,
          (TOP + bottom) / 2.0,
          Anchor.START,
          signal.words().say("sequence.none-with-both"));
      return;
    }
    Scale scale = Scale.holding(low, high, LEAST_SPAN_US, bottom - 4, TOP + 2);
    for (double tick : scale.ticks(4)) {
      svg.line(LEFT - 3, scale.at(tick), LEFT, scale.at(tick), Ink.TEXT);
      svg.quiet(LEFT - 5, scale.at(tick) + 3, Anchor.END, Scale.label(tick));
    }
    Trace joined = new Trace();
    @Nullable SweepPoint before = null;
    for (SweepPoint point : signal.points()) {
      Double value = point.valueUs();
      boolean follows = before != null && point.sweep() == before.sweep() + 1;
      if ((value == null || !follows) && !joined.isEmpty()) {
        svg.trace(joined.data(), Ink.RULE, 0.5, Dash.SOLID);
        joined = new Trace();
      }
      if (value != null) {
        joined.add(time.at(point.timeS()), scale.at(value));
      }
      before = point;
    }
    if (!joined.isEmpty()) {
      svg.trace(joined.data(), Ink.RULE, 0.5, Dash.SOLID);
    }
    double radius = signal.points().size() > 150 ? 1.1 : 1.6;
    for (SweepPoint point : signal.points()) {
      Double value = point.valueUs();
      if (value != null) {
        svg.disc(time.at(point.timeS()), scale.at(value), radius, Ink.MARK);
      }
    }
  }

  private void lane(Svg svg, Scale time, SweepState state, double y) {
    svg.quiet(LEFT - 5, y, Anchor.END, signal.words().state(state));
    svg.line(LEFT, y - 3, RIGHT, y - 3, Ink.GUIDE, 0.6, Dash.SOLID);
    for (SweepPoint point : signal.points()) {
      if (point.state() == state) {
        double x = time.at(point.timeS());
        if (state == SweepState.BLOCKED) {
          svg.cross(x, y - 3, 2.4, Ink.TEXT);
        } else {
          svg.line(x, y - 6, x, y, Ink.TEXT);
        }
      }
    }
  }
}
