/**
 * WFDB records: a text header beside files of samples (header(5), signal(5) and annot(5) of the
 * WFDB Applications Guide, Moody), read by position: nothing holds a whole signal.
 *
 * <ol>
 *   <li>{@code WfdbFolder} lets a header name files beside itself and nothing else.
 *   <li>{@code WfdbHeader} reads the lines of a header; {@code WfdbSignalLine} and {@code
 *       WfdbFields} their fields.
 *   <li>{@code WfdbFormat} turns bytes into converter numbers; {@code SignalFile} reads one file
 *       that several signals may share; {@code SignalScan} goes through it once for missing
 *       samples, checksums and the range.
 *   <li>{@code WfdbParts} puts the parts of a record one after the other: one part, parts of fixed
 *       layout, or parts of variable layout, where a signal may be absent for a while.
 *   <li>{@code WfdbChannels} makes channels of them; {@code WfdbAnnotations} reads the annotations
 *       beside the header; {@code WfdbRecording} is what comes out.
 * </ol>
 */
@NullMarked
package org.lonefibre.formats.wfdb;

import org.jspecify.annotations.NullMarked;
