/**
 * From the conditioned signal to the discharges of motor units.
 *
 * <ol>
 *   <li>{@code SpikeDetector} finds steep phases above the noise ({@code SpikeTrain}).
 *   <li>{@code Snippets} keep the shape of each, {@code ShapeClasses} put like shapes together.
 *   <li>{@code UnitSeeker} takes the largest class and looks with {@code LagHistogram} for places
 *       around it at which other spikes crowd: the potentials ({@code Role}) of one unit.
 *   <li>{@code PatternMatcher} finds every discharge that shows this pattern, whole or in part.
 *       Before and after, {@code UnitSplitter} tells whether alike discharges come from two units,
 *       by the signal around them ({@code DischargeFeatures}) and their rhythm.
 *   <li>{@link org.lonefibre.analysis.discharge.DischargeFinder} repeats this until nothing is
 *       left. After stimuli, {@link org.lonefibre.analysis.discharge.EvokedFinder} does the same
 *       with the stimuli in place of the first potential; {@code LatencyFollower} follows a latency
 *       that drifts.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.discharge;

import org.jspecify.annotations.NullMarked;
