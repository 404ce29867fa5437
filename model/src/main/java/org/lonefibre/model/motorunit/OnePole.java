package org.lonefibre.model.motorunit;

/** A causal one-pole high-pass by the bilinear transform, from rest. */
final class OnePole {

  private final double gain;
  private final double memory;

  /** A cut-off of 0 lets all pass. */
  OnePole(double highPassHz, double stepUs) {
    double w = Math.tan(Math.PI * highPassHz * stepUs * 1e-6);
    gain = 1 / (1 + w);
    memory = (1 - w) / (1 + w);
  }

  double[] filtered(double[] values) {
    double[] out = new double[values.length];
    double before = 0;
    double last = 0;
    for (int i = 0; i < values.length; i++) {
      last = memory * last + gain * (values[i] - before);
      before = values[i];
      out[i] = last;
    }
    return out;
  }
}
