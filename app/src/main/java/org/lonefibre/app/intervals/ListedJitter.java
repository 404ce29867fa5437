package org.lonefibre.app.intervals;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.JitterMeasurement;
import org.lonefibre.analysis.jitter.JitterResult;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.formats.text.IntervalList;
import org.lonefibre.signal.recording.Finding;

/** The jitter of a listed pair, in lines. */
final class ListedJitter {

  private final IntervalList list;
  private final IntervalSeries series;

  ListedJitter(IntervalList list, Activation activation) {
    this.list = list;
    List<SweepInterval> sweeps = new ArrayList<>();
    Double before = null;
    for (IntervalList.Entry entry : list.entries()) {
      Double timeS = entry.timeS();
      Double intervalUs = entry.intervalUs();
      sweeps.add(
          new SweepInterval(
              sweeps.size() + 1,
              timeS == null ? sweeps.size() : timeS,
              intervalUs,
              intervalUs == null ? null : 0.0,
              intervalUs == null ? SweepState.BLOCKED : SweepState.PRESENT,
              timeS == null || before == null ? null : 1000 * (timeS - before),
              !sweeps.isEmpty()));
      before = timeS;
    }
    this.series =
        new IntervalSeries(
            activation == Activation.STIMULATED
                ? IntervalSeries.Kind.STIMULUS_LATENCY
                : IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL,
            sweeps,
            0);
  }

  List<String> lines() {
    List<String> lines = new ArrayList<>();
    JitterResult result = new JitterEstimator(JitterSettings.defaults()).measure(series);
    lines.add(
        text(
            "  %d discharges, %d intervals, %d differences",
            result.counts().sweeps(),
            result.counts().presentSweeps(),
            result.counts().differences()));
    if (result instanceof JitterMeasurement measured) {
      lines.add(
          text(
              "  jitter %.1f us (%s; 95 %% interval %.1f to %.1f us), not corrected",
              measured.jitterUs(),
              measured.statistic().name().toLowerCase(Locale.ROOT).replace('_', ' '),
              measured.correctedJitterLowUs(),
              measured.correctedJitterHighUs()));
      lines.add(
          text(
              "  mean consecutive difference %.1f us, mean sorted difference %s, mean interval"
                  + " %.1f us",
              measured.meanConsecutiveDifferenceUs(),
              number(measured.meanSortedDifferenceUs()),
              measured.meanIntervalUs()));
    } else {
      lines.add("  no jitter can be given");
    }
    boolean marked = result.counts().blockedSweeps() > 0;
    Double percent = result.counts().blockingPercent();
    if (marked && percent != null) {
      lines.add(text("  blocking %.1f %%", percent));
    }
    for (Finding finding : result.findings()) {
      lines.add(FaultLine.oneLine("  " + finding.code().code() + ": " + finding.text()));
    }
    lines.add(
        "  not judged, as there is no signal: whether one fibre made each potential (the grade),"
            + " the timing floor and so the corrected jitter, axonal and trigger blocking");
    if (list.entries().get(0).timeS() == null) {
      lines.add(
          "  not judged, as the list has no times: pauses, the order by rate (mean sorted"
              + " difference); its lines are taken as consecutive discharges");
    }
    if (!marked) {
      lines.add("  not judged: blocking, as no line is marked as blocked");
    }
    return lines;
  }

  private static String number(@Nullable Double value) {
    return value == null ? "unknown" : text("%.1f us", value);
  }

  private static String text(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }
}
