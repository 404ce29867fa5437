package org.lonefibre.analysis.discharge;

/** A potential of a motor unit as the search sees it: a place in the discharge and a shape. */
final class Role {

  /** Mean place from the reference of the discharge, in samples. */
  final double lag;

  /** Robust spread of the place, in samples. */
  final double spread;

  /** Share of the discharges in which it was seen. */
  final double presence;

  /** Mean shape on the grid of {@link Snippets}. */
  final double[] shape;

  /** Energy of the shape. */
  final double energy;

  /** Residual energy that its spikes usually have, over the energy of the shape. */
  double looseness = 0.02;

  Role(double lag, double spread, double presence, double[] shape) {
    this.lag = lag;
    this.spread = spread;
    this.presence = presence;
    this.shape = shape;
    this.energy = Snippets.energy(shape);
  }

  double size() {
    return Math.sqrt(energy);
  }
}
