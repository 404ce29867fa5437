/**
 * Where each potential of a motor unit lies in each discharge, and whether it is there.
 *
 * <ol>
 *   <li>{@code ShapeEstimator} makes the shape of each potential, at first confined to its side of
 *       its neighbours, then whole; {@code ShapeSeparator} solves for shapes that overlap.
 *   <li>{@code SweepFitter} places all shapes of a unit in each discharge at once ({@code
 *       JointFit}), other units taken out ({@code TrackedSite}), and judges presence against noise;
 *       {@code CollisionFitter} places discharges of different units that lie on each other.
 *   <li>{@code PotentialCensus} joins lobes taken for two and adds potentials that were missed;
 *       {@code DischargeFiller} finds hidden discharges, {@code DischargeSieve} leaves out those
 *       that were none.
 *   <li>All this in the signal for timing; {@code TrackReader} reads the shapes of the conditioned
 *       signal at the places found.
 *   <li>{@link org.lonefibre.analysis.potential.PotentialTracker} is the door; its results are
 *       {@link org.lonefibre.analysis.potential.TrackedUnit}s, which a person may want otherwise
 *       ({@link org.lonefibre.analysis.potential.FollowedUnits}, {@code UnitJoin}).
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.potential;

import org.jspecify.annotations.NullMarked;
