package org.lonefibre.report.csv;

import java.util.function.Function;

/**
 * A column of a table.
 *
 * @param name its name, with the unit
 * @param cell its cell in a row
 */
record Column<R>(String name, Function<R, String> cell) {}
