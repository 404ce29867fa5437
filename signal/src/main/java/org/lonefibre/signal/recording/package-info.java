/**
 * A recording as it was found: channels with exact rates, continuous stretches, annotations, and
 * what was noticed while reading.
 *
 * <ol>
 *   <li>{@link org.lonefibre.signal.recording.TimeBase} is the only place where samples become
 *       time.
 *   <li>{@link org.lonefibre.signal.recording.Recording} gives samples in blocks; nothing holds a
 *       whole file.
 *   <li>{@link org.lonefibre.signal.recording.Channel} says what one signal is, and where it is
 *       interrupted ({@link org.lonefibre.signal.recording.Segment}).
 *   <li>{@link org.lonefibre.signal.recording.Finding} is a fact worth saying about what was read
 *       or measured; the codes are fixed by {@link org.lonefibre.signal.recording.FindingCode}.
 * </ol>
 */
@NullMarked
package org.lonefibre.signal.recording;

import org.jspecify.annotations.NullMarked;
