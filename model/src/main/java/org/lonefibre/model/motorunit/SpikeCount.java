package org.lonefibre.model.motorunit;

import java.util.List;

/**
 * How many fibres make the spikes that a needle finds at random.
 *
 * @param sites places of the needle with a spike large enough
 * @param shares share of those with 1, 2, ... fibres; the last holds that number and more; empty
 *     without a spike
 * @param fibreDensity mean number of potentials of 200 uV or more and below 300 us of rise, the
 *     first included, with the needle put before a fibre (by the trade's rule, common practice)
 */
public record SpikeCount(int sites, List<Double> shares, double fibreDensity) {

  /** Copies the list. */
  public SpikeCount {
    shares = List.copyOf(shares);
  }
}
