package org.lonefibre.model.fibre;

/**
 * What each part of a needle does to the amplitude of a fibre's potential: a start and factors that
 * multiply to the total, each found by switching on one thing more.
 *
 * @param distanceMm from the core along its normal to the fibre's axis
 * @param pointUv amplitude at a point in endless muscle against a remote reference
 * @param averagingRatio the core's surface instead of a point, in endless muscle
 * @param insulationRatio the needle's body, all of it insulating
 * @param metalRatio the core's metal, which evens out its potential
 * @param cannulaRatio the shaft's metal as the reference; 1 with a remote one
 * @param contactRatio contact between metal and tissue; 1 for the ideal metal
 * @param cableRatio load of cable and amplifier input
 * @param filterRatio high-pass
 * @param totalUv amplitude with all of it
 */
public record Contribution(
    double distanceMm,
    double pointUv,
    double averagingRatio,
    double insulationRatio,
    double metalRatio,
    double cannulaRatio,
    double contactRatio,
    double cableRatio,
    double filterRatio,
    double totalUv) {}
