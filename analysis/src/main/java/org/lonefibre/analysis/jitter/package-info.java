/**
 * From intervals to jitter and blocking, with honest error.
 *
 * <ol>
 *   <li>{@link org.lonefibre.analysis.jitter.JitterEstimator} takes the sweeps of one pair or
 *       end-plate. {@code DifferenceChain} forms the differences that may be formed.
 *   <li>{@code TwoClusters} looks for flip-flop first; then the order of the sweeps (trend,
 *       dependence on the rate) decides between mean consecutive and mean sorted-data difference.
 *   <li>{@code MeanDifferenceInterval} gives the 95 % interval.
 *   <li>The result is a {@link org.lonefibre.analysis.jitter.JitterMeasurement} or an {@link
 *       org.lonefibre.analysis.jitter.UnmeasurableJitter}; {@code JitterFindings} finds the words.
 *   <li>What several potentials of one unit say together: {@link
 *       org.lonefibre.analysis.jitter.EndPlateJitters} separates each end-plate's own jitter
 *       ({@code PairDifferences}); {@link org.lonefibre.analysis.jitter.UnitPatterns} looks for an
 *       abnormal or blocking trigger and for blocks of the axon ({@code JointBlocks}); {@link
 *       org.lonefibre.analysis.jitter.StimulatedPatterns} for a stimulus below threshold ({@code
 *       SubliminalStimulation}), a common part of the latency and changes of the rate.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.jitter;

import org.jspecify.annotations.NullMarked;
