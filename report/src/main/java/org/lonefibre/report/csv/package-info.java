/**
 * The numbers as delimited text (RFC 4180): comma, CRLF, a decimal point, units in the names of the
 * columns, empty where there is no value.
 *
 * <ol>
 *   <li>{@code Cell} writes numbers with every digit and guards text that a spreadsheet would take
 *       for a formula.
 *   <li>{@link org.lonefibre.report.csv.SignalsCsv}: a line per pair or end-plate.
 *   <li>{@link org.lonefibre.report.csv.IntervalsCsv}: a line per sweep of each of them.
 * </ol>
 */
@NullMarked
package org.lonefibre.report.csv;

import org.jspecify.annotations.NullMarked;
