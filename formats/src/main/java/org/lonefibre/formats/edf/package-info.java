/**
 * EDF, EDF+ and BDF (Kemp et al. 1992; Kemp and Olivan 2003), read by position: nothing holds the
 * whole file, and a file may be larger than memory.
 *
 * <ol>
 *   <li>{@code EdfHeader} reads the header, field by field with its byte offset.
 *   <li>{@code EdfRecords} settles how many records are there when header and file differ.
 *   <li>{@code EdfAnnotations} reads the annotations and the time of each record; {@code EdfClock}
 *       cuts the recording where time jumps. Decimal arithmetic throughout ({@code EdfNumber}).
 *   <li>{@code EdfChannels} makes channels: exact rate, calibration, range; it refuses a channel
 *       that cannot be scaled and leaves the others.
 *   <li>{@code EdfSamples} turns bytes into samples; {@code EdfRecording} is what comes out; {@code
 *       EdfFields} shows the header to a person.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.edf;

import org.jspecify.annotations.NullMarked;
