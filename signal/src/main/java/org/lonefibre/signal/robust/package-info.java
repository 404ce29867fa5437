/**
 * Location and spread that a few wild values do not move.
 *
 * <ol>
 *   <li>{@code Selection} finds the value of a given rank without sorting the rest.
 *   <li>{@link org.lonefibre.signal.robust.RobustStatistics} gives medians, quantiles, trimmed
 *       means and the spread from the median absolute deviation. Its results are in the unit of the
 *       values it was given.
 *   <li>{@link org.lonefibre.signal.robust.SlidingMedian} keeps the median of a window that moves.
 * </ol>
 */
@NullMarked
package org.lonefibre.signal.robust;

import org.jspecify.annotations.NullMarked;
