/**
 * Whatever a laboratory has, read and written: {@link org.lonefibre.formats.RecordingReaders} is
 * the door for reading, {@link org.lonefibre.formats.writer.EdfPlusWriter} for writing.
 */
@NullMarked
package org.lonefibre.formats;

import org.jspecify.annotations.NullMarked;
