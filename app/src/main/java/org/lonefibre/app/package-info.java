/**
 * Commands are verbs: the shell around the modules.
 *
 * <ol>
 *   <li>{@code terminal} knows how to speak: exit codes, one line a fault, whole files, progress.
 *   <li>{@code declaration} reads what people write: study files, settings files, options.
 *   <li>{@code analyse}, {@code simulate}, {@code report} and {@code demo} are one command each.
 *   <li>{@link org.lonefibre.app.Lonefibre} is the program: it finds the command and turns what
 *       went wrong into a line and an exit code.
 * </ol>
 */
@NullMarked
package org.lonefibre.app;

import org.jspecify.annotations.NullMarked;
