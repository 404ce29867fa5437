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
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.reader;

import org.jspecify.annotations.NullMarked;
