/**
 * MATLAB files of the versions 5 to 7.2.
 *
 * <ol>
 *   <li>{@link org.lonefibre.formats.mat.MatReader} reads the matrix that a person names.
 *   <li>{@code MatVariables} finds what there is by {@code MatTag}, element by element, in {@code
 *       StoredBytes} or {@code InflatedBytes}.
 *   <li>{@code MatMatrix} gives the numbers of one channel, each a {@code MatType}.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.mat;

import org.jspecify.annotations.NullMarked;
