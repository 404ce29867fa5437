package org.lonefibre.analysis.reference;

import static org.lonefibre.analysis.reference.ResourceTable.findCell;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitRow.CentreStatistic;
import org.lonefibre.analysis.reference.LimitRow.Exceeding;
import org.lonefibre.analysis.reference.LimitRow.NeedleSize;
import org.lonefibre.analysis.reference.LimitRow.Status;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.signal.recording.Finding;

/**
 * Published limits, and the one set that fits a study.
 *
 * <ol>
 *   <li>Muscle, activation and needle must fit. A set that does not state the size of its
 *       concentric needle fits both sizes, with a finding.
 *   <li>With age columns: the column at or below the age; within a year of the next both are named.
 *       Below the first column there is none. Columns are read as decades: ten years past the last
 *       there is none.
 *   <li>Without age columns: the ages the subjects had, if stated, else adults.
 *   <li>Rows from memory are off, with a finding.
 *   <li>If several sets fit and none is asked for, none is used: a finding lists them. Sets are
 *       never mixed. A set asked for must fit all the same.
 *   <li>A high-pass other than the set's is a finding.
 * </ol>
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class LimitCatalogue {

  private static final int DECADE_YEARS = 10;

  private final List<LimitRow> rows;
  private final MuscleNames muscles;
  private final LimitSettings settings;

  private LimitCatalogue(List<LimitRow> rows, MuscleNames muscles, LimitSettings settings) {
    this.rows = rows;
    this.muscles = muscles;
    this.settings = settings;
  }

  /**
   * The limits carried with the program.
   *
   * @throws IllegalArgumentException if a row contradicts itself
   */
  public static LimitCatalogue load(LimitSettings settings) {
    List<LimitRow> rows =
        ResourceTable.rows("limits.csv").stream().map(LimitCatalogue::row).toList();
    return new LimitCatalogue(rows, MuscleNames.load(), settings);
  }

  private static LimitRow row(NamedCsvRecord row) {
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
        row.getField("source"),
        row.getField("note"));
  }

  private static <E extends Enum<E>> E constant(Class<E> type, String words) {
    return Enum.valueOf(type, words.toUpperCase(Locale.ROOT).replaceAll("[ -]", "_"));
  }

  /** Identities of the sets, in the order of the table. */
  public List<String> listSets() {
    return rows.stream().map(LimitRow::setId).distinct().toList();
  }

  /** Every cell of every set in the order of the table, those from memory included. */
  public List<PublishedLimit> listPublished() {
    return rows.stream().map(PublishedLimit::of).toList();
  }

  /** Every row, those from memory included. */
  List<LimitRow> listRows() {
    return rows;
  }

  /**
   * The set that fits.
   *
   * @throws IllegalArgumentException if a set is asked for that does not exist
   */
  LimitMatch match(StudyDeclaration study) {
    String asked = study.limitsSetId();
    if (asked != null && !listSets().contains(asked)) {
      throw new IllegalArgumentException(
          "limit set must be one of " + String.join(", ", listSets()) + ", found " + asked);
    }
    List<Finding> findings = new ArrayList<>();
    LimitFindings.missing(study).ifPresent(findings::add);
    String muscle = study.muscle();
    String needle = study.needle();
    if (muscle == null || needle == null) {
      return new LimitMatch.Unmatched(findings);
    }
    String key = muscles.findKey(muscle).orElse(muscle);
    Map<String, List<LimitRow>> sets = new LinkedHashMap<>();
    rows.stream()
        .filter(row -> asked == null || row.setId().equals(asked))
        .filter(row -> row.fitsMuscle(key) && row.activation() == study.activation())
        .filter(row -> row.needles().contains(needle))
        .forEach(row -> sets.computeIfAbsent(row.setId(), id -> new ArrayList<>()).add(row));
    Double age = study.ageYears();
    List<LimitRow> fitting =
        new ArrayList<>(
            sets.values().stream().map(set -> atAge(set, age)).flatMap(Optional::stream).toList());
    List<LimitRow> remembered = fitting.stream().filter(this::isOff).toList();
    fitting.removeAll(remembered);
    if (fitting.size() == 1) {
      LimitRow row = fitting.get(0);
      LimitFindings.addForRow(row, study, findings);
      if (age != null) {
        addAgeColumns(row, sets.getOrDefault(row.setId(), List.of()), age, findings);
      }
      return new LimitMatch.Matched(row, findings);
    }
    if (fitting.isEmpty()) {
      findings.add(LimitFindings.noLimits(study, key, sets.keySet()));
      if (!remembered.isEmpty()) {
        findings.add(LimitFindings.fromMemory(remembered));
      }
    } else {
      findings.add(LimitFindings.several(fitting));
    }
    return new LimitMatch.Unmatched(findings);
  }

  private boolean isOff(LimitRow row) {
    return row.status() == Status.FROM_MEMORY
        && settings.memoryRows() == LimitSettings.MemoryRows.OFF;
  }

  /** The row of one set that holds at an age. */
  private Optional<LimitRow> atAge(List<LimitRow> set, @Nullable Double age) {
    LimitRow best = null;
    for (LimitRow row : set) {
      Integer column = row.ageColumnYears();
      if (column == null) {
        if (holdsWithoutColumns(row, age)) {
          best = row;
        }
      } else if (age != null && column <= age && age < column + DECADE_YEARS) {
        best = row;
      }
    }
    return Optional.ofNullable(best);
  }

  private boolean holdsWithoutColumns(LimitRow row, @Nullable Double age) {
    Integer from = row.subjectsFromAgeYears();
    Integer below = row.subjectsBelowAgeYears();
    if (age == null) {
      return from == null && below == null;
    }
    return age >= (from == null ? settings.adultAgeYears() : from)
        && (below == null || age < below);
  }

  private void addAgeColumns(LimitRow row, List<LimitRow> set, double age, List<Finding> findings) {
    Integer column = row.ageColumnYears();
    if (column == null) {
      return;
    }
    LimitRow next =
        set.stream()
            .filter(r -> Integer.valueOf(column + DECADE_YEARS).equals(r.ageColumnYears()))
            .findFirst()
            .orElse(null);
    if (next != null && column + DECADE_YEARS - age <= settings.nextColumnYears()) {
      findings.add(LimitFindings.ageColumns(row, next, age, isOff(next)));
    } else if (next == null && age > column) {
      findings.add(LimitFindings.lastColumn(row, age));
    }
  }
}
