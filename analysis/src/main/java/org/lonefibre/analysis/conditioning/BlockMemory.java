package org.lonefibre.analysis.conditioning;

/**
 * How much of a filtered signal is made at a time and kept; changes no result by more than 1e-9 of
 * the signal's size.
 *
 * @param blockSamples samples made at a time, 1,024 to 16,777,216; more are taken if the filter
 *     remembers long
 * @param cacheMegabytes memory for filtered samples of one signal, 1 to 65,536; two blocks are kept
 *     in any case
 */
record BlockMemory(int blockSamples, int cacheMegabytes) {

  /** Refuses values outside their ranges. */
  BlockMemory {
    if (blockSamples < 1024 || blockSamples > 1 << 24) {
      throw new IllegalArgumentException(
          "block must hold 1024 to 16777216 samples, found " + blockSamples);
    }
    if (cacheMegabytes < 1 || cacheMegabytes > 65_536) {
      throw new IllegalArgumentException("cache must be 1 to 65536 MB, found " + cacheMegabytes);
    }
  }

  /**
   * 131,072 samples and 64 MB: a site of a minute at 50 kHz is filtered once (engineering choice).
   */
  static BlockMemory defaults() {
    return new BlockMemory(1 << 17, 64);
  }

  /** Less: for a site that is looked at, a part at a time, while others are open beside it. */
  static BlockMemory small() {
    return new BlockMemory(1 << 17, 16);
  }

  /** The same with half the memory: for a signal of which only one twin is kept. */
  BlockMemory halved() {
    return new BlockMemory(blockSamples, Math.max(1, cacheMegabytes / 2));
  }
}
