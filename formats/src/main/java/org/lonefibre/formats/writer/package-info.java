/**
 * Writing recordings.
 *
 * <ol>
 *   <li>{@link org.lonefibre.formats.writer.EdfPlusWriter} is the door; {@link
 *       org.lonefibre.formats.writer.EdfForm} says how wide samples are.
 *   <li>{@code RecordLayout} finds a duration of a record that is exact for every rate; {@code
 *       DigitalScale} keeps the converter's numbers; {@code AnnotationLists} deals annotations out
 *       to the records; {@code EdfPlusHeader} writes the header.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.writer;

import org.jspecify.annotations.NullMarked;
