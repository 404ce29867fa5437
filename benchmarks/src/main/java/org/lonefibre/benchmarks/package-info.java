/**
 * How long the steps from a file to a result take on one core, as multiples of real time.
 *
 * <ol>
 *   <li>{@code SimulatedMinute} records a minute of a simulated site and keeps it as EDF+, 16 bit.
 *   <li>{@link org.lonefibre.benchmarks.RealTimeBenchmark} reads it, conditions it, looks for
 *       discharges and runs the whole chain.
 * </ol>
 */
@NullMarked
package org.lonefibre.benchmarks;

import org.jspecify.annotations.NullMarked;
