package org.lonefibre.model.motorunit;

import java.util.List;

/**
 * How many fibres make the spikes that a needle finds at random.
 *
 * @param spikes places of the needle with a spike large enough
 * @param places all that were tried for them
 * @param shares share of those with 1, 2, ... fibres; the last holds that number and more; empty
 *     without a spike
 * @param fibreDensityRatio mean number of potentials with the needle put before a fibre, to one, by
 *     the trade's rule (200 uV or more, below 300 us of rise, the first included; common practice)
 */
public record SpikeCount(int spikes, int places, List<Double> shares, double fibreDensityRatio) {

  /** Copies the list. */
  public SpikeCount {
    shares = List.copyOf(shares);
  }
}
