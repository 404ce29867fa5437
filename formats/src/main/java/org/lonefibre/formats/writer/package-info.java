/**
 * Writing recordings.
 *
 * <ol>
 *   <li>{@link org.lonefibre.formats.writer.EdfPlusWriter} is the door; {@link
 *       org.lonefibre.formats.writer.EdfForm} says how wide samples are.
 *   <li>{@code RecordLayout} finds a duration of a record that is exact for every rate; {@code
 *       DigitalScale} keeps the converter's numbers; {@code AnnotationLists} deals annotations out
 *       to the records; {@code EdfPlusHeader} writes the header.
 *   <li>{@link org.lonefibre.formats.writer.LosslessCopy} copies without changing a sample: {@code
 *       WholeSteps} finds the form that holds it, {@link org.lonefibre.formats.writer.CopyProof}
 *       compares what was written. {@link org.lonefibre.formats.writer.Anonymous} leaves out what
 *       identifies; both see a recording under another description, {@code RecordingView}.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.writer;

import org.jspecify.annotations.NullMarked;
