package org.lonefibre.signal.random;

/**
 * Gaussian deviates by the ziggurat of 128 layers (Marsaglia and Tsang 2000, constants of that
 * paper from memory; layer and position are drawn from separate bits, as Doornik 2005 asks, from
 * memory). The tables are computed with StrictMath, so they are the same on every machine.
 */
final class Ziggurat {

  private static final int LAYERS = 128;

  /** Start of the tail. */
  private static final double TAIL = 3.442619855899;

  /** Area of each layer. */
  private static final double AREA = 9.91256303526217e-3;

  private static final double[] EDGE = new double[LAYERS + 1];
  private static final double[] INSIDE = new double[LAYERS];

  static {
    double density = StrictMath.exp(-0.5 * TAIL * TAIL);
    EDGE[0] = AREA / density;
    EDGE[1] = TAIL;
    for (int i = 2; i < LAYERS; i++) {
      EDGE[i] = StrictMath.sqrt(-2 * StrictMath.log(AREA / EDGE[i - 1] + density));
      density = StrictMath.exp(-0.5 * EDGE[i] * EDGE[i]);
    }
    EDGE[LAYERS] = 0;
    for (int i = 0; i < LAYERS; i++) {
      INSIDE[i] = EDGE[i + 1] / EDGE[i];
    }
  }

  private Ziggurat() {}

  static double next(RandomStream stream) {
    while (true) {
      long bits = stream.nextBits();
      int layer = (int) (bits & (LAYERS - 1));
      double position = (bits >> 10) * 0x1p-53;
      if (Math.abs(position) < INSIDE[layer]) {
        return position * EDGE[layer];
      }
      if (layer == 0) {
        return tail(stream, position < 0);
      }
      double x = position * EDGE[layer];
      double low = StrictMath.exp(-0.5 * (EDGE[layer] * EDGE[layer] - x * x));
      double high = StrictMath.exp(-0.5 * (EDGE[layer + 1] * EDGE[layer + 1] - x * x));
      if (high + stream.uniformProbability() * (low - high) < 1) {
        return x;
      }
    }
  }

  private static double tail(RandomStream stream, boolean negative) {
    while (true) {
      double x = stream.exponentialRatio() / TAIL;
      double y = stream.exponentialRatio();
      if (2 * y > x * x) {
        return negative ? -(TAIL + x) : TAIL + x;
      }
    }
  }
}
