/** Writing recordings: {@link org.lonefibre.formats.writer.EdfPlusWriter}. */
@NullMarked
package org.lonefibre.formats.writer;

import org.jspecify.annotations.NullMarked;
