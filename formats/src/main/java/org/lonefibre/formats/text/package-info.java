/**
 * Delimited text.
 *
 * <ol>
 *   <li>{@code TextHead} settles how characters are written.
 *   <li>{@code TextLayout} finds delimiter, decimal mark, header and the role of each column
 *       ({@code ColumnName}) from the first rows ({@code TextRows}).
 *   <li>{@code TextTable} parses every row once ({@code DecimalText}) into columns of numbers
 *       ({@code NumberColumn}); a broken row is refused with its line.
 *   <li>{@code TimeColumn} finds the rate and the gaps from a column of times.
 *   <li>{@code OneLine} reads a text that is one long line, {@code SweepRows} one whose rows are
 *       sweeps; {@link org.lonefibre.formats.text.IntervalList} reads lists of intervals, which are
 *       no recording.
 *   <li>{@code TextRecording} is what comes out.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.text;

import org.jspecify.annotations.NullMarked;
