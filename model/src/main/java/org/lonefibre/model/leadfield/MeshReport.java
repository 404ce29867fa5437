package org.lonefibre.model.leadfield;

import org.jspecify.annotations.Nullable;

/**
 * How exact a solved needle is, by its own account.
 *
 * @param triangles triangles of the whole surface
 * @param rowSumErrorRatio largest deviation of a row of the double-layer matrix from -1/2
 * @param fluxErrorRatio what is missing in the balance of currents between core and tissue, over
 *     what flows; 0 where the current is given
 * @param refinementErrorRatio three quarters of the largest relative change, in resistance and in
 *     lead from 0.02 to 1 mm, from a mesh with about half as many triangles; null if not asked for
 */
public record MeshReport(
    int triangles,
    double rowSumErrorRatio,
    double fluxErrorRatio,
    @Nullable Double refinementErrorRatio) {}
