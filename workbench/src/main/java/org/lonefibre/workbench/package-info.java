/**
 * The workbench: {@link org.lonefibre.workbench.Workbench} is the door.
 *
 * <ol>
 *   <li>{@code server} answers on loopback and keeps everybody else out.
 *   <li>{@code declaration} is what is said of a study, and the measuring chain as seen from here.
 *   <li>{@code study} is the list and one study, {@code site} one recording.
 *   <li>{@code importing} takes recordings in.
 *   <li>{@code limits} shows what studies are compared with, and what was changed.
 *   <li>{@code needle} shows what a needle hears, {@code practice} lets recordings with known truth
 *       be judged.
 * </ol>
 */
@NullMarked
package org.lonefibre.workbench;

import org.jspecify.annotations.NullMarked;
