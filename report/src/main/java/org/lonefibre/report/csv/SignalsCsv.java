package org.lonefibre.report.csv;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;

/**
 * {@code signals.csv}: a line per pair or end-plate with all its fields; the last says DEMO where
 * the data are invented, so that no line looks like an examination by itself.
 */
public final class SignalsCsv {

  private static final List<Column<SignalRow>> COLUMNS = columns();

  private SignalsCsv() {}

  /** The whole table as text. */
  public static String of(Examination examination) {
    return Table.of(COLUMNS, SignalRow.listAll(examination));
  }

  private static List<Column<SignalRow>> columns() {
    List<Column<SignalRow>> columns = new ArrayList<>();
    column(columns, "subject", r -> Cell.text(r.examination().subject().code()));
    column(columns, "ageYears", r -> Cell.number(r.examination().subject().ageYears()));
    column(columns, "visitDate", r -> Cell.text(r.examination().visit().date()));
    column(columns, "study", r -> Cell.count(r.studyNumber()));
    column(columns, "muscle", r -> Cell.text(r.study().muscle()));
    column(columns, "side", r -> Cell.word(r.study().side()));
    column(columns, "activation", r -> Cell.word(r.study().activation()));
    column(columns, "needle", r -> Cell.text(r.study().needle()));
    column(columns, "file", r -> Cell.text(r.recording().file()));
    column(columns, "sha256", r -> Cell.text(r.recording().sha256()));
    column(columns, "site", r -> Cell.text(r.recording().site()));
    column(columns, "channel", r -> Cell.text(r.recording().channel()));
    column(columns, "startS", r -> Cell.number(r.recording().startS()));
    column(columns, "endS", r -> Cell.number(r.recording().endS()));
    column(columns, "samplingRateHz", r -> Cell.number(r.recording().samplingRateHz()));
    column(columns, "noiseUv", r -> Cell.number(r.recording().noiseUv()));
    column(columns, "motorUnit", r -> Cell.text(r.unit() == null ? null : r.unit().id()));
    column(columns, "kind", r -> r.pair() == null ? "end-plate" : "pair");
    column(columns, "id", r -> Cell.text(r.measures().id()));
    column(columns, "triggerPotential", ofPair(p -> Cell.text(p.triggerPotential())));
    column(columns, "pairedPotential", ofPair(p -> Cell.text(p.pairedPotential())));
    column(columns, "potential", ofEndPlate(e -> Cell.text(e.potential())));
    column(columns, "status", r -> Cell.word(r.measures().status()));
    column(columns, "sweeps", r -> Cell.count(r.measures().sweeps()));
    column(columns, "presentSweeps", r -> Cell.count(r.measures().presentSweeps()));
    column(columns, "blockedSweeps", r -> Cell.count(r.measures().blockedSweeps()));
    column(columns, "triggerAbsentSweeps", ofPair(p -> Cell.count(p.triggerAbsentSweeps())));
    column(columns, "obscuredSweeps", r -> Cell.count(r.measures().obscuredSweeps()));
    column(columns, "excludedSweeps", r -> Cell.count(r.measures().excludedSweeps()));
    column(columns, "differences", r -> Cell.count(r.measures().differences()));
    column(columns, "blockingPercent", r -> Cell.number(r.measures().blockingPercent()));
    column(columns, "meanIntervalUs", ofPair(p -> Cell.number(p.meanIntervalUs())));
    column(columns, "meanLatencyUs", ofEndPlate(e -> Cell.number(e.meanLatencyUs())));
    column(
        columns,
        "meanConsecutiveDifferenceUs",
        r -> Cell.number(r.measures().meanConsecutiveDifferenceUs()));
    column(columns, "meanSortedDifferenceUs", ofPair(p -> Cell.number(p.meanSortedDifferenceUs())));
    column(columns, "jitterUs", r -> Cell.number(r.measures().jitterUs()));
    column(columns, "jitterStatistic", r -> Cell.word(r.measures().jitterStatistic()));
    column(columns, "timingFloorUs", r -> Cell.number(r.measures().timingFloorUs()));
    column(columns, "correctedJitterUs", r -> Cell.number(r.measures().correctedJitterUs()));
    column(columns, "correctedJitterLowUs", r -> Cell.number(r.measures().correctedJitterLowUs()));
    column(
        columns, "correctedJitterHighUs", r -> Cell.number(r.measures().correctedJitterHighUs()));
    column(
        columns,
        "meanInterDischargeIntervalMs",
        ofPair(p -> Cell.number(p.meanInterDischargeIntervalMs())));
    potential(columns, "trigger", SignalRow::trigger);
    potential(columns, "measured", SignalRow::measured);
    column(columns, "limitSet", ofLimits(l -> Cell.text(l.set())));
    column(columns, "individualLimitUs", ofLimits(l -> Cell.number(l.individualUs())));
    column(columns, "aboveLimit", SignalsCsv::aboveLimit);
    column(
        columns,
        "findings",
        r ->
            r.measures().findings().stream()
                .map(f -> f.code().code())
                .distinct()
                .collect(Collectors.joining("; ")));
    column(columns, "provenance", SignalRow::provenance);
    return List.copyOf(columns);
  }

  private static void potential(
      List<Column<SignalRow>> columns,
      String role,
      Function<SignalRow, @Nullable PotentialResult> which) {
    add(columns, role + "AmplitudeUv", which, p -> Cell.number(p.amplitudeUv()));
    add(columns, role + "RiseTimeUs", which, p -> Cell.number(p.riseTimeUs()));
    add(columns, role + "Snr", which, p -> Cell.number(p.snr()));
    add(columns, role + "ArrivalErrorUs", which, p -> Cell.number(p.arrivalErrorUs()));
    add(columns, role + "Grade", which, p -> Cell.word(p.grade()));
    add(columns, role + "GradeByTradeRules", which, p -> Cell.word(p.gradeByTradeRules()));
    add(
        columns,
        role + "SingleFibreProbability",
        which,
        p -> Cell.number(p.singleFibreProbability()));
  }

  private static void add(
      List<Column<SignalRow>> columns,
      String name,
      Function<SignalRow, @Nullable PotentialResult> which,
      Function<PotentialResult, String> cell) {
    column(columns, name, r -> Optional.ofNullable(which.apply(r)).map(cell::apply).orElse(""));
  }

  private static void column(
      List<Column<SignalRow>> columns, String name, Function<SignalRow, String> cell) {
    columns.add(new Column<>(name, cell));
  }

  private static Function<SignalRow, String> ofPair(Function<PairResult, String> cell) {
    return row -> row.measures() instanceof PairResult pair ? cell.apply(pair) : "";
  }

  private static Function<SignalRow, String> ofEndPlate(Function<EndPlateResult, String> cell) {
    return row -> row.measures() instanceof EndPlateResult endPlate ? cell.apply(endPlate) : "";
  }

  private static Function<SignalRow, String> ofLimits(Function<LimitsUsed, String> cell) {
    return row -> {
      LimitsUsed limits = row.study().summary().limits();
      return limits == null ? "" : cell.apply(limits);
    };
  }

  /** Compared unrounded; empty if there is nothing to compare. */
  private static String aboveLimit(SignalRow row) {
    LimitsUsed limits = row.study().summary().limits();
    Double limit = limits == null ? null : limits.individualUs();
    Double jitter = row.measures().jitterUs();
    return limit == null || jitter == null ? "" : jitter > limit ? "yes" : "no";
  }
}
