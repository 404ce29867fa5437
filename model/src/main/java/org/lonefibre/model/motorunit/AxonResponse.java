package org.lonefibre.model.motorunit;

/**
 * What stimulation near threshold does to the axon, from stimulus to stimulus.
 *
 * <p>Thread rule: one thread; built and then only read.
 */
public final class AxonResponse {

  private final boolean[] excited;
  private final double[] delaysUs;

  /** An axon that follows every stimulus at once. */
  public AxonResponse(int stimuli) {
    excited = new boolean[stimuli];
    java.util.Arrays.fill(excited, true);
    delaysUs = new double[stimuli];
  }

  /** Says that a stimulus does not excite the axon. */
  public void miss(int stimulus) {
    excited[stimulus] = false;
  }

  /** Adds a delay to the response to a stimulus. */
  public void delay(int stimulus, double delayUs) {
    delaysUs[stimulus] += delayUs;
  }

  boolean excited(int stimulus) {
    return excited[stimulus];
  }

  double delayUs(int stimulus) {
    return delaysUs[stimulus];
  }
}
