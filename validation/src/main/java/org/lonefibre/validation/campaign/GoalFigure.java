package org.lonefibre.validation.campaign;

import java.util.List;

/**
 * A figure of a campaign's page, as numbers; whoever writes the page draws it.
 *
 * @param name of its file, after the campaign's and without its ending
 * @param title what it shows
 * @param lower label of the lower axis
 * @param lowerEnds its ends
 * @param upright label of the upright axis
 * @param uprightEnds its ends
 * @param curves its curves, the most important first
 */
public record GoalFigure(
    String name,
    String title,
    String lower,
    Ends lowerEnds,
    String upright,
    Ends uprightEnds,
    List<GoalCurve> curves) {

  /** Copies the list. */
  public GoalFigure {
    curves = List.copyOf(curves);
  }

  /**
   * Ends of an axis, in the unit of its label.
   *
   * @param low lower end
   * @param high upper end
   * @param isLogarithmic whether values are spaced by their logarithm
   */
  public record Ends(Number low, Number high, boolean isLogarithmic) {}

  /**
   * A curve.
   *
   * @param name for the legend
   * @param across places along the lower axis, rising
   * @param up values, as many
   */
  public record GoalCurve(String name, List<Double> across, List<Double> up) {

    /** Copies the lists. */
    public GoalCurve {
      across = List.copyOf(across);
      up = List.copyOf(up);
      if (across.size() != up.size()) {
        throw new IllegalArgumentException(
            "a curve needs as many values as places, found " + up.size() + " and " + across.size());
      }
    }
  }
}
