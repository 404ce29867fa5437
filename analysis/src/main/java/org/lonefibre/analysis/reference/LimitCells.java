package org.lonefibre.analysis.reference;

import static org.lonefibre.analysis.reference.ResourceTable.findCell;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import java.util.Locale;
import org.lonefibre.analysis.reference.LimitRow.CentreStatistic;
import org.lonefibre.analysis.reference.LimitRow.Exceeding;
import org.lonefibre.analysis.reference.LimitRow.NeedleSize;
import org.lonefibre.analysis.reference.LimitRow.Status;
import org.lonefibre.analysis.study.Activation;

/** Reads the rows carried with the program, which are well formed. */
final class LimitCells {

  private LimitCells() {}

  static LimitRow published(NamedCsvRecord row) {
    return new LimitRow(
        row.getField("set_id"),
        row.getField("set_name"),
        row.getField("muscle"),
        List.of(row.getField("needles").split(";", -1)),
        constant(NeedleSize.class, row.getField("needle_size")),
        constant(Activation.class, row.getField("activation")),
        findCell(row, "age_column_years").map(Integer::valueOf).orElse(null),
        findCell(row, "subjects_from_age_years").map(Integer::valueOf).orElse(null),
        findCell(row, "subjects_below_age_years").map(Integer::valueOf).orElse(null),
        constant(CentreStatistic.class, row.getField("centre_statistic")),
        findCell(row, "centre_limit_us").map(Double::valueOf).orElse(null),
        constant(Exceeding.class, row.getField("centre_above")),
        findCell(row, "individual_limit_us").map(Double::valueOf).orElse(null),
        Integer.parseInt(row.getField("outliers_percent_over")),
        row.getField("outlier_rule"),
        findCell(row, "high_pass_hz").map(Double::valueOf).orElse(null),
        row.getField("subjects"),
        findCell(row, "signals_per_subject").map(Integer::valueOf).orElse(null),
        constant(Status.class, row.getField("status")),
        "",
        row.getField("source"),
        row.getField("note"));
  }

  /** The constant that words stand for. */
  static <E extends Enum<E>> E constant(Class<E> type, String words) {
    return Enum.valueOf(type, words.strip().toUpperCase(Locale.ROOT).replaceAll("[ -]", "_"));
  }
}
