package org.lonefibre.validation.campaign;

import java.util.List;

/**
 * Many trials against known truth, told as tables with goal, measured value and whether it is met.
 *
 * <ul>
 *   <li>Each trial is a function of seed, cell and number alone; {@link #replay} gives it again.
 *   <li>Thread rule: immutable; trials of a cell may run on several threads.
 * </ul>
 */
public interface GoalCampaign {

  /** Its name on the command line, and of its page. */
  String name();

  /** Heading of its page. */
  String title();

  /** What is measured and how, as Markdown. */
  String introduction();

  /** Trials of each cell unless told otherwise. */
  int usualTrials();

  /** Number of cells. */
  int cells();

  /**
   * Runs all cells.
   *
   * @param trials number of trials a cell, 1 or more
   * @param step called after each cell
   */
  List<GoalTable> run(long seed, int trials, Runnable step);

  /**
   * One trial again, in words.
   *
   * @throws IllegalArgumentException if there is no such cell
   */
  String replay(long seed, int cell, int trial);
}
