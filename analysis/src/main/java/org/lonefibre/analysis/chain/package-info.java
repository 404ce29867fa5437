/**
 * The laboratory's own machine and export, tested with a signal of known intervals.
 *
 * <ol>
 *   <li>{@link org.lonefibre.analysis.chain.TestSignal} is played into the amplifier: silence,
 *       pairs of pulses with a constant and a varying interval, sines from 5 Hz to 20 kHz, pairs
 *       again, a sine as large as the pulses.
 *   <li>{@code PulseTimes} finds the pairs in the export and times every pulse between samples.
 *   <li>{@code ClockFit} gives the rate against the clock of the player, and jumps of time.
 *   <li>{@code SineFit} gives the gain at every frequency, {@code RollOff} the corners, the order
 *       and whether a filter was run twice.
 *   <li>{@link org.lonefibre.analysis.chain.ChainTest} puts it together as a {@link
 *       org.lonefibre.analysis.chain.ChainResult}.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.chain;

import org.jspecify.annotations.NullMarked;
