/**
 * How the program speaks to a person and to a shell.
 *
 * <ol>
 *   <li>{@link org.lonefibre.app.terminal.ExitCode} says how it went.
 *   <li>{@link org.lonefibre.app.terminal.InputFault} is something a person can mend: its message
 *       is the one line they see.
 *   <li>{@link org.lonefibre.app.terminal.FaultLine} turns any failure into that line.
 *   <li>{@link org.lonefibre.app.terminal.Refusals} says it as documents list it.
 *   <li>{@link org.lonefibre.app.terminal.Nearest} offers the known word nearest to an unknown one.
 *   <li>{@link org.lonefibre.app.terminal.WholeFile} writes a file whole or not at all.
 *   <li>{@link org.lonefibre.app.terminal.Progress} draws a bar where there is a terminal.
 * </ol>
 */
@NullMarked
package org.lonefibre.app.terminal;

import org.jspecify.annotations.NullMarked;
