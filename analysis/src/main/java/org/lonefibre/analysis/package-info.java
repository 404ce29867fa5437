/**
 * From a recording to a judged study: {@link org.lonefibre.analysis.SiteAnalyser} is the door.
 *
 * <ol>
 *   <li>{@code conditioning} filters the samples and says what is wrong with them.
 *   <li>{@code discharge} finds the discharges of motor units, {@code sweep} the stimuli.
 *   <li>{@code potential} places each potential in each discharge and judges its presence.
 *   <li>{@code grading} judges whether one fibre made it.
 *   <li>{@code interval} makes the interval of each sweep, {@code jitter} measures them.
 *   <li>{@code study} holds the facts, {@code reference} compares them with published limits.
 *   <li>{@code settings} holds what can be set.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis;

import org.jspecify.annotations.NullMarked;
