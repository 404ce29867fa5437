package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitRow.Status;
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
 *   <li>If several sets fit and none is asked for nor chosen by the laboratory, none is used: a
 *       finding lists them. Sets are never mixed. A set asked for must fit all the same; the others
 *       that fit are named.
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
  private final List<LimitChoice> choices;

  private LimitCatalogue(
      List<LimitRow> rows, MuscleNames muscles, LimitSettings settings, List<LimitChoice> choices) {
    this.rows = List.copyOf(rows);
    this.muscles = muscles;
    this.settings = settings;
    this.choices = choices;
  }

  /**
   * The limits carried with the program.
   *
   * @throws IllegalArgumentException if a row contradicts itself
   */
  public static LimitCatalogue load(LimitSettings settings) {
    return load(settings, LaboratoryLimits.NONE);
  }

  /**
   * The limits carried with the program, and those of a laboratory.
   *
   * @throws IllegalArgumentException if two files of the laboratory hold the same cell, or it
   *     confirmed or chose what there is not
   */
  public static LimitCatalogue load(LimitSettings settings, LaboratoryLimits laboratory) {
    List<LimitRow> rows = new ArrayList<>();
    ResourceTable.rows("limits.csv").stream().map(LimitCells::published).forEach(rows::add);
    Set<String> cells = new HashSet<>();
    for (LimitFile file : laboratory.files()) {
      for (LimitRow row : file.rows()) {
        if (!cells.add(LimitFile.key(row))) {
          throw new IllegalArgumentException(
              "limits must stand in one file only, found in two: " + LimitFile.key(row));
        }
        rows.add(row);
      }
    }
    for (LimitConfirmation confirmation : laboratory.confirmations()) {
      confirmation.apply(rows);
    }
    return new LimitCatalogue(rows, MuscleNames.load(), settings, laboratory.choices());
  }

  /** Identities of the sets, in the order of the table. */
  public List<String> listSets() {
    return rows.stream().map(LimitRow::setId).distinct().toList();
  }

  /** Every cell of every set in the order of the table, those from memory included. */
  public List<PublishedLimit> listPublished() {
    return rows.stream()
        .map(row -> PublishedLimit.of(row, isOff(row) ? PublishedLimit.OFF : "on"))
        .toList();
  }

  /**
   * The values from memory that a confirmation is about, as a text that changes with them; empty if
   * there are none.
   *
   * @param muscle muscle key; null for every muscle of the set
   */
  public String confirmable(String set, @Nullable String muscle) {
    LimitConfirmation asked = new LimitConfirmation(set, muscle, "reader", "", "print", null);
    return LimitConfirmation.values(rows.stream().filter(asked::isFor).toList());
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
    Map<String, List<LimitRow>> sets = setsFor(study);
    List<LimitRow> all = atAge(sets, study.ageYears());
    List<LimitRow> remembered = all.stream().filter(this::isOff).toList();
    List<LimitRow> fitting = all.stream().filter(row -> !isOff(row)).toList();
    String picked = asked == null && fitting.size() > 1 ? chosen(study, fitting) : asked;
    if (picked != null) {
      remembered = remembered.stream().filter(row -> row.setId().equals(picked)).toList();
    }
    List<LimitRow> used =
        picked == null
            ? fitting
            : fitting.stream().filter(row -> row.setId().equals(picked)).toList();
    if (used.size() == 1) {
      LimitRow row = used.get(0);
      LimitFindings.addForRow(row, study, findings);
      Double age = study.ageYears();
      if (age != null) {
        addAgeColumns(row, sets.getOrDefault(row.setId(), List.of()), age, findings);
      }
      if (fitting.size() > 1) {
        findings.add(
            LimitFindings.picked(
                row, fitting.stream().filter(other -> !other.equals(row)).toList()));
      }
      return new LimitMatch.Matched(row, findings);
    }
    if (study.muscle() == null || study.needle() == null) {
      return new LimitMatch.Unmatched(findings);
    }
    if (used.isEmpty()) {
      findings.add(LimitFindings.noLimits(study, key(study), otherAges(sets, asked)));
      if (!remembered.isEmpty()) {
        findings.add(LimitFindings.fromMemory(remembered));
      }
    } else {
      findings.add(LimitFindings.several(used));
    }
    return new LimitMatch.Unmatched(findings);
  }

  /** Every row that holds for a study, a set a row, those that are off included. */
  List<LimitRow> listHolding(StudyDeclaration study) {
    return atAge(setsFor(study), study.ageYears());
  }

  private static List<String> otherAges(Map<String, List<LimitRow>> sets, @Nullable String asked) {
    return sets.keySet().stream().filter(set -> asked == null || set.equals(asked)).toList();
  }

  private String key(StudyDeclaration study) {
    String muscle = String.valueOf(study.muscle());
    return muscles.findKey(muscle).orElse(muscle);
  }

  /** The set that was chosen; one that does not fit (any more) is no choice. */
  private @Nullable String chosen(StudyDeclaration study, List<LimitRow> fitting) {
    return choices.stream()
        .filter(choice -> choice.holdsFor(key(study), study.needle(), study.activation()))
        .map(LimitChoice::set)
        .filter(set -> fitting.stream().anyMatch(row -> row.setId().equals(set)))
        .findFirst()
        .orElse(null);
  }

  /** Rows of each set for muscle, needle and activation, whatever the age. */
  private Map<String, List<LimitRow>> setsFor(StudyDeclaration study) {
    Map<String, List<LimitRow>> sets = new LinkedHashMap<>();
    String needle = study.needle();
    if (study.muscle() == null || needle == null) {
      return sets;
    }
    rows.stream()
        .filter(row -> row.fitsMuscle(key(study)) && row.activation() == study.activation())
        .filter(row -> row.needles().contains(needle))
        .forEach(row -> sets.computeIfAbsent(row.setId(), id -> new ArrayList<>()).add(row));
    return sets;
  }

  private List<LimitRow> atAge(Map<String, List<LimitRow>> sets, @Nullable Double age) {
    return sets.values().stream().map(set -> atAge(set, age)).flatMap(Optional::stream).toList();
  }

  /** Whether a row is visible, but not used. */
  boolean isOff(LimitRow row) {
    return row.status() == Status.FROM_MEMORY
        && row.confirmation().isEmpty()
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
      } else if (age != null
          && column <= age
          && age < column + DECADE_YEARS
          && isWithinSubjects(row, age)) {
        best = row;
      }
    }
    return Optional.ofNullable(best);
  }

  private static boolean isWithinSubjects(LimitRow row, double age) {
    Integer from = row.subjectsFromAgeYears();
    Integer below = row.subjectsBelowAgeYears();
    return (from == null || age >= from) && (below == null || age < below);
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
