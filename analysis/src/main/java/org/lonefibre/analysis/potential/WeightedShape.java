package org.lonefibre.analysis.potential;

/**
 * A shape as arrivals are found by it (see {@link NoiseWeights}).
 *
 * @param own what of the shape is the potential's own
 * @param weighted the same, weighted by the inverse of the noise's spectrum; as long
 * @param errorSamples standard error of one arrival that noise alone gives, in samples
 */
record WeightedShape(PotentialShape own, PotentialShape weighted, double errorSamples) {}
