package org.lonefibre.analysis.reference;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The decision of a laboratory that rows from memory are as printed.
 *
 * <ul>
 *   <li>It holds for the values that were confirmed: where the program now carries others, the rows
 *       stay off.
 *   <li>A blank value stays blank.
 * </ul>
 *
 * @param set identity of the set
 * @param muscle muscle key; null for every muscle of the set
 * @param confirmedBy who read the printed source
 * @param confirmedOn date, ISO 8601
 * @param reason what was read: edition, page, table
 * @param values the values confirmed, as {@link LimitCatalogue#confirmable}; null if the decision
 *     is made together with the analysis
 */
public record LimitConfirmation(
    String set,
    @Nullable String muscle,
    String confirmedBy,
    String confirmedOn,
    String reason,
    @Nullable String values) {

  /** Refuses a decision without a person or without what was read. */
  public LimitConfirmation {
    if (confirmedBy.isBlank() || reason.isBlank()) {
      throw new IllegalArgumentException(
          "confirming " + set + " needs who read the printed source, and what was read");
    }
  }

  /**
   * Whether it is in force: it is not where the program now carries other values than were
   * confirmed.
   */
  public boolean holdsIn(LimitCatalogue catalogue) {
    return values == null || values.equals(catalogue.confirmable(set, muscle));
  }

  boolean isFor(LimitRow row) {
    return row.setId().equals(set)
        && row.status() == LimitRow.Status.FROM_MEMORY
        && (muscle == null || row.muscle().equals(muscle));
  }

  /** Marks the rows it is for. */
  void apply(List<LimitRow> rows) {
    List<LimitRow> meant = rows.stream().filter(this::isFor).toList();
    if (meant.isEmpty()) {
      throw new IllegalArgumentException(
          "a confirmation must name a set with rows from memory"
              + (muscle == null ? "" : " for the muscle")
              + ", found "
              + set
              + (muscle == null ? "" : ", " + muscle));
    }
    if (values == null || values.equals(values(meant))) {
      String words = "confirmed by " + confirmedBy + " on " + confirmedOn + ": " + reason;
      rows.replaceAll(row -> isFor(row) ? row.confirmed(words) : row);
    }
  }

  static String values(List<LimitRow> rows) {
    StringBuilder text = new StringBuilder();
    for (LimitRow row : rows) {
      text.append(row.muscle())
          .append(' ')
          .append(row.ageColumnYears())
          .append(": ")
          .append(row.centreUs())
          .append(", ")
          .append(row.individualUs())
          .append("; ");
    }
    return text.toString();
  }
}
