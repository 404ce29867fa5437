package org.lonefibre.model.motorunit;

/**
 * A muscle from which samples are drawn: what its motor units are like, and how many are at work.
 *
 * @param territoryRadiusMm radius of a unit's territory, 1 to 10 mm
 * @param fibresPerUnit fibres of a unit, strewn over its territory, 10 to 3,000
 * @param clusteredRatio share of fibres that lie beside another of their unit, 0 to 0.9
 * @param clusterMm how far from it (standard deviation in each direction), 0.03 to 1 mm
 * @param diameterUm mean diameter of fibres, 20 to 90 um
 * @param diameterDeviationUm its standard deviation, 0 to 25 um
 * @param endPlateDistanceMm from the end-plates to the needle on the mean, 5 to 60 mm
 * @param endPlateDeviationMm its standard deviation, 0 to 10 mm
 * @param jitterUs standard deviation of an end-plate's delay, 0 to 200 us
 * @param blockingProbability of each transmission, 0 to 1
 * @param activeUnits units at work whose territories hold the needle, 1 to 60
 * @param lowestRateHz slowest of them, 1 Hz or more
 * @param highestRateHz fastest, up to 40 Hz
 */
public record SampleMuscleSettings(
    double territoryRadiusMm,
    int fibresPerUnit,
    double clusteredRatio,
    double clusterMm,
    double diameterUm,
    double diameterDeviationUm,
    double endPlateDistanceMm,
    double endPlateDeviationMm,
    double jitterUs,
    double blockingProbability,
    int activeUnits,
    double lowestRateHz,
    double highestRateHz) {

  /** Refuses what lies outside the stated ranges. */
  public SampleMuscleSettings {
    require("radius of territories", territoryRadiusMm, 1, 10, "mm");
    require("fibres of a unit", fibresPerUnit, 10, 3000, "");
    require("share of clustered fibres", clusteredRatio, 0, 0.9, "");
    require("size of clusters", clusterMm, 0.03, 1, "mm");
    require("diameter", diameterUm, 20, 90, "um");
    require("deviation of the diameter", diameterDeviationUm, 0, 25, "um");
    require("distance of end-plates", endPlateDistanceMm, 5, 60, "mm");
    require("deviation of end-plates", endPlateDeviationMm, 0, 10, "mm");
    require("deviation of delays", jitterUs, 0, 200, "us");
    require("blocking", blockingProbability, 0, 1, "");
    require("active units", activeUnits, 1, 60, "");
    require("slowest rate", lowestRateHz, 1, 40, "Hz");
    require("fastest rate", highestRateHz, lowestRateHz, 40, "Hz");
  }

  /**
   * Healthy muscle at slight effort.
   *
   * <ul>
   *   <li>209 fibres a unit (biceps, estimate, stored abstract), over a territory of 7 mm (from
   *       memory): 5.4 a mm2.
   *   <li>55 um, the diameter of 3.69 m/s (Stalberg 1966, as cited in 2022) by the relation of
   *       Blijham et al. (2006, abstract); deviation 8 um and end-plates 20 mm (1.5 mm) off are
   *       engineering choices by which neighbours arrive 0.8 ms apart on the mean (healthy 0.67 ms,
   *       Nazliel and Kuruoglu 2000, abstract).
   *   <li>Delays 18 us, six units of 8 to 12 Hz: engineering choices.
   * </ul>
   */
  public static SampleMuscleSettings healthy() {
    return new SampleMuscleSettings(3.5, 209, 0, 0.1, 55, 8, 20, 1.5, 18, 0, 6, 8, 12);
  }

  /**
   * After loss of axons and sprouting of the others: as {@link #healthy}, with two and a half times
   * the fibres a unit, most beside another of their unit, more unlike each other, with unsteady
   * end-plates. Our own making, no source.
   */
  public static SampleMuscleSettings reinnervated() {
    return new SampleMuscleSettings(3.5, 520, 0.7, 0.1, 52, 14, 20, 3, 30, 0.02, 3, 8, 18);
  }

  /**
   * Failing transmission: as {@link #healthy}, with unsteady end-plates that block, and more units
   * at work for it. Our own making, no source.
   */
  public static SampleMuscleSettings failingTransmission() {
    return new SampleMuscleSettings(3.5, 209, 0, 0.1, 55, 8, 20, 1.5, 50, 0.15, 8, 8, 14);
  }

  /** Fibres of one unit in a mm2 of its territory. */
  public double fibresPerMm2() {
    return fibresPerUnit / (Math.PI * territoryRadiusMm * territoryRadiusMm);
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          (what + " must be " + low + " to " + high + " " + unit).strip() + ", found " + value);
    }
  }
}
