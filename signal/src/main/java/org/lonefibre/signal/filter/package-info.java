/**
 * Filters that do not move an interval, and their one-way twins.
 *
 * <ol>
 *   <li>{@code ButterworthDesign} asks a filter-design library for the coefficients; {@link
 *       org.lonefibre.signal.filter.SecondOrderSections} holds them and says how the filter answers
 *       to a frequency and how long it remembers.
 *   <li>{@code FilterRun} sends samples through the sections, forwards or backwards, two sections
 *       at a time, and keeps the state between calls.
 *   <li>{@link org.lonefibre.signal.filter.ZeroPhase} runs forwards and then backwards, with the
 *       ends of a signal extended by odd reflection, as SciPy's {@code sosfiltfilt} does; a piece
 *       of a longer signal comes out as if the whole had been filtered.
 * </ol>
 */
@NullMarked
package org.lonefibre.signal.filter;

import org.jspecify.annotations.NullMarked;
