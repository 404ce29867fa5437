package org.lonefibre.app.intervals;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.JitterCounts;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.JitterMeasurement;
import org.lonefibre.analysis.jitter.JitterResult;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.app.intervals.ListedIntervals.NotJudged;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.formats.text.IntervalList;
import org.lonefibre.signal.recording.Finding;

/** The jitter of a listed pair, and what is said of it in lines. */
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

  ListedIntervals.Listed listed(String file, String sha256) {
    JitterResult result = new JitterEstimator(JitterSettings.defaults()).measure(series);
    JitterCounts counts = result.counts();
    List<NotJudged> notJudged = new ArrayList<>(List.of(NotJudged.GRADE, NotJudged.TIMING_FLOOR));
    if (list.entries().get(0).timeS() == null) {
      notJudged.add(NotJudged.TIMES);
    }
    boolean marked = counts.blockedSweeps() > 0;
    if (!marked) {
      notJudged.add(NotJudged.BLOCKING);
    }
    JitterMeasurement measured = result instanceof JitterMeasurement found ? found : null;
    return new ListedIntervals.Listed(
        file,
        sha256,
        counts.sweeps(),
        counts.presentSweeps(),
        counts.blockedSweeps(),
        counts.differences(),
        marked ? counts.blockingPercent() : null,
        measured == null ? null : (Double) measured.meanIntervalUs(),
        measured == null ? null : (Double) measured.meanConsecutiveDifferenceUs(),
        measured == null ? null : measured.meanSortedDifferenceUs(),
        measured == null ? null : (Double) measured.jitterUs(),
        measured == null ? null : (Double) measured.correctedJitterLowUs(),
        measured == null ? null : (Double) measured.correctedJitterHighUs(),
        measured == null ? null : measured.statistic(),
        measured == null ? "unmeasurable" : measured.isExcluded() ? "excluded" : "measured",
        notJudged,
        result.findings());
  }

  static List<String> lines(ListedIntervals.Listed listed) {
    List<String> lines = new ArrayList<>();
    lines.add(
        text(
            "  %d discharges, %d intervals, %d differences",
            listed.sweeps(), listed.presentSweeps(), listed.differences()));
    JitterStatistic statistic = listed.jitterStatistic();
    if (statistic == null) {
      lines.add("  no jitter can be given");
    } else {
      lines.add(
          text(
              "  jitter %s (%s; 95 %% interval %s to %s), not corrected",
              number(listed.jitterUs()),
              statistic.name().toLowerCase(Locale.ROOT).replace('_', ' '),
              number(listed.jitterLowUs()),
              number(listed.jitterHighUs())));
      lines.add(
          text(
              "  mean consecutive difference %s, mean sorted difference %s, mean interval %s",
              number(listed.meanConsecutiveDifferenceUs()),
              number(listed.meanSortedDifferenceUs()),
              number(listed.meanIntervalUs())));
    }
    if (listed.blockingPercent() != null) {
      lines.add(text("  blocking %.1f %%", listed.blockingPercent()));
    }
    for (Finding finding : listed.findings()) {
      lines.add(FaultLine.oneLine("  " + finding.code().code() + ": " + finding.text()));
    }
    lines.add(
        "  not judged, as there is no signal: whether one fibre made each potential (the grade),"
            + " the timing floor and so the corrected jitter, axonal and trigger blocking");
    if (listed.notJudged().contains(NotJudged.TIMES)) {
      lines.add(
          "  not judged, as the list has no times: pauses, the order by rate (mean sorted"
              + " difference); its lines are taken as consecutive discharges");
    }
    if (listed.notJudged().contains(NotJudged.BLOCKING)) {
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
