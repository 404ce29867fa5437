/**
 * MATLAB files of the versions 5 to 7.2: {@link org.lonefibre.formats.mat.MatReader} reads the
 * matrix that a person names; {@code MatFileDoor} opens the file by the MAT File Library, {@code
 * MatrixSource} takes one channel of it.
 */
@NullMarked
package org.lonefibre.formats.mat;

import org.jspecify.annotations.NullMarked;
