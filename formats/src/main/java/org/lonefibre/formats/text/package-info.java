/**
 * Delimited text.
 *
 * <ol>
 *   <li>{@code TextLayout} finds delimiter, decimal mark, header and columns from the first lines.
 *   <li>{@code TimeColumn} makes rate and gaps of a column of times.
 *   <li>{@code TextRecording} holds the parsed columns.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.text;

import org.jspecify.annotations.NullMarked;
