/**
 * Fibre density, a recording mode of its own: {@link org.lonefibre.analysis.density.FibreDensity}
 * takes the potentials of sites chosen at random.
 */
@NullMarked
package org.lonefibre.analysis.density;

import org.jspecify.annotations.NullMarked;
