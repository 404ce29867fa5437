/**
 * Between the samples: a sampled, band-limited signal read at any fractional position.
 *
 * <ol>
 *   <li>{@link org.lonefibre.signal.interpolation.FractionalDelay} shifts a stretch by a fraction
 *       of a sample with a windowed sinc, computed for each shift (no table, no rounding of the
 *       shift).
 * </ol>
 */
@NullMarked
package org.lonefibre.signal.interpolation;

import org.jspecify.annotations.NullMarked;
