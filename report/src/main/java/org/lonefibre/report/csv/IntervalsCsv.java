package org.lonefibre.report.csv;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.LatencyEntry;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.SweepEntry;

/** {@code intervals.csv}: a line per sweep of each pair or end-plate. */
public final class IntervalsCsv {

  private record Row(
      SignalRow signal,
      int sweep,
      double timeS,
      @Nullable Double intervalUs,
      @Nullable Double latencyUs,
      @Nullable Double errorUs,
      SweepState state) {}

  private static final List<Column<Row>> COLUMNS =
      List.of(
          new Column<>("subject", r -> Cell.text(r.signal().examination().subject().code())),
          new Column<>("study", r -> Cell.count(r.signal().studyNumber())),
          new Column<>("muscle", r -> Cell.text(r.signal().study().muscle())),
          new Column<>("side", r -> Cell.word(r.signal().study().side())),
          new Column<>("file", r -> Cell.text(r.signal().recording().file())),
          new Column<>("site", r -> Cell.text(r.signal().recording().site())),
          new Column<>("id", r -> Cell.text(r.signal().measures().id())),
          new Column<>("sweep", r -> Cell.count(r.sweep())),
          new Column<>("timeS", r -> Cell.number(r.timeS())),
          new Column<>("intervalUs", r -> Cell.number(r.intervalUs())),
          new Column<>("latencyUs", r -> Cell.number(r.latencyUs())),
          new Column<>("errorUs", r -> Cell.number(r.errorUs())),
          new Column<>("state", r -> Cell.word(r.state())),
          new Column<>("provenance", r -> r.signal().provenance()));

  private IntervalsCsv() {}

  /** The whole table as text. */
  public static String of(Examination examination) {
    List<Row> rows = new ArrayList<>();
    for (SignalRow signal : SignalRow.listAll(examination)) {
      if (signal.measures() instanceof PairResult pair) {
        for (SweepEntry s : pair.intervals()) {
          rows.add(
              new Row(signal, s.sweep(), s.timeS(), s.intervalUs(), null, s.errorUs(), s.state()));
        }
      } else if (signal.measures() instanceof EndPlateResult endPlate) {
        for (LatencyEntry s : endPlate.latencies()) {
          rows.add(
              new Row(signal, s.sweep(), s.timeS(), null, s.latencyUs(), s.errorUs(), s.state()));
        }
      }
    }
    return Table.of(COLUMNS, rows);
  }
}
