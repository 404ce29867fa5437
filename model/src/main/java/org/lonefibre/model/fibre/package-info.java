/**
 * One muscle fibre and the potential it gives at an electrode.
 *
 * <ol>
 *   <li>{@link org.lonefibre.model.fibre.IntracellularPotential} is the wave behind its front.
 *   <li>{@link org.lonefibre.model.fibre.FibreGeometry} says where the fibre lies, how thick it is,
 *       and where its end-plate and tendons are.
 *   <li>{@link org.lonefibre.model.fibre.FibrePotentialSolver} integrates membrane current times
 *       lead along the fibre. With sealed ends this is the convolution of the wave's first
 *       derivative with the lead's, which the hidden {@code WaveConvolution} runs in one pass: a
 *       power times an exponential needs no window.
 *   <li>{@link org.lonefibre.model.fibre.FibrePotential} is the result on a fine grid, with its
 *       amplitude, steepest point and rise time.
 *   <li>{@link org.lonefibre.model.fibre.NeedlePotentialSolver} does the same at a solved needle, a
 *       {@link org.lonefibre.model.fibre.NeedleResponse} at one frequency or several, and applies
 *       {@link org.lonefibre.model.fibre.Pickup}: {@link org.lonefibre.model.fibre.Cable} and
 *       filter.
 *   <li>{@link org.lonefibre.model.fibre.ContributionSolver} takes the needle's effect apart into a
 *       {@link org.lonefibre.model.fibre.Contribution}; {@link org.lonefibre.model.fibre.FallOff}
 *       is amplitude over distance and so the reach.
 *   <li>{@link org.lonefibre.model.fibre.PotentialSpectrum} is a potential by frequency, {@link
 *       org.lonefibre.model.fibre.RadialFilter} what more distance does to it; {@link
 *       org.lonefibre.model.fibre.ShoulderMap} adds a second fibre, of which the hidden {@code
 *       Wave} lays one on the other.
 * </ol>
 */
@NullMarked
package org.lonefibre.model.fibre;

import org.jspecify.annotations.NullMarked;
