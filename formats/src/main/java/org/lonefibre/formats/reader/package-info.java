/**
 * What every reader of recordings has in common.
 *
 * <ol>
 *   <li>{@link org.lonefibre.formats.reader.RecordingReader} recognises a file by its content and
 *       opens it; {@link org.lonefibre.formats.reader.ReadOptions} says what a file may leave out.
 *   <li>{@link org.lonefibre.formats.reader.SiteCutter} cuts a long recording into sites by its
 *       annotations.
 *   <li>{@link org.lonefibre.formats.reader.SampleRuns} knows which samples are there where some
 *       are missing.
 *   <li>{@link org.lonefibre.formats.reader.CheckedRecording} checks what is asked for before a
 *       reader copies it; {@link org.lonefibre.formats.reader.FileBytes} reads by position.
 *   <li>{@link org.lonefibre.formats.reader.SourceRecording} is a recording of arrays of numbers,
 *       for formats that hold nothing more; {@code TimedRuns} leaves out what is missing.
 *   <li>{@link org.lonefibre.formats.reader.StoredForm} says how a file stores its numbers and its
 *       header, for copies without a change.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.reader;

import org.jspecify.annotations.NullMarked;
