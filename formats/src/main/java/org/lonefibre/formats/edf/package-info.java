/**
 * EDF, EDF+ and BDF (Kemp et al. 1992; Kemp and Olivan 2003).
 *
 * <ol>
 *   <li>{@code EdfHeader} reads the header, field by field with its byte offset.
 *   <li>{@code EdfAnnotations} reads the time of each record and the annotations.
 *   <li>{@code EdfRecording} reads samples by position; nothing holds the whole file.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.edf;

import org.jspecify.annotations.NullMarked;
