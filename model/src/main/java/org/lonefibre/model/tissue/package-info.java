/**
 * Muscle as a conductor, and what a current in it does at an electrode.
 *
 * <ol>
 *   <li>{@link org.lonefibre.model.tissue.Tissue} conducts better along its fibres than across.
 *   <li>A {@link org.lonefibre.model.tissue.LeadField} says what one ampere at a place in the
 *       tissue gives at the electrode: by reciprocity, the tissue's potential there when one ampere
 *       enters at the electrode.
 *   <li>The hidden {@code PointElectrode} is the closed form; the hidden {@code SurfaceElectrode}
 *       averages it over a small surface; the hidden {@code ReferencedElectrode} sets either
 *       against a point behind. All are idealised: no shaft, no metal.
 * </ol>
 */
@NullMarked
package org.lonefibre.model.tissue;

import org.jspecify.annotations.NullMarked;
