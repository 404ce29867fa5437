/**
 * The command {@code intervals}: jitter of plain lists of intervals, and what cannot be judged from
 * them.
 */
@NullMarked
package org.lonefibre.app.intervals;

import org.jspecify.annotations.NullMarked;
