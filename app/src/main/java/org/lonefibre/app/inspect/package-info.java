/**
 * The command {@code inspect}: what is read from a file, and why one is refused.
 *
 * <ol>
 *   <li>The hidden {@code Inspector} opens a file; {@code SignalScan} goes once over the samples of
 *       each channel.
 *   <li>{@link org.lonefibre.app.inspect.Inspection} is the document; {@code InspectionJson} writes
 *       it, {@code InspectionText} says it in lines.
 *   <li>{@link org.lonefibre.app.inspect.InspectCommand} is the command.
 * </ol>
 */
@NullMarked
package org.lonefibre.app.inspect;

import org.jspecify.annotations.NullMarked;
