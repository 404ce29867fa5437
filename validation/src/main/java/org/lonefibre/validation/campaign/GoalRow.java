package org.lonefibre.validation.campaign;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One line of a campaign's page.
 *
 * @param cells the condition, then what was measured, as text
 * @param goal the goal in words; empty where none is stated
 * @param met whether it is met; null where none is stated
 */
public record GoalRow(List<String> cells, String goal, @Nullable Boolean met) {

  /** Copies the cells. */
  public GoalRow {
    cells = List.copyOf(cells);
  }

  /** A line that only tells. */
  static GoalRow told(List<String> cells) {
    return new GoalRow(cells, "", null);
  }

  /** A line whose value must lie in a range, ends included. */
  static GoalRow within(List<String> cells, double value, double low, double high, String goal) {
    return new GoalRow(cells, goal, value >= low && value <= high);
  }
}
