package org.lonefibre.analysis.discharge;

/** A potential of a motor unit as the search sees it: a place in the discharge and a shape. */
final class Role {

  /** Mean place from the reference of the discharge, in samples. */
  double lag;

  /** Robust spread of the place, in samples. */
  double spread;

  /** Share of the discharges in which it was seen. */
  double presence;

  /** Mean shape on the grid of {@link Snippets}. */
  final double[] shape;

  /** Energy of the shape. */
  double energy;

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
