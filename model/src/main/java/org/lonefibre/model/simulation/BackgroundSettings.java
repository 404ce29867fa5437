package org.lonefibre.model.simulation;

/**
 * Motor units far from the electrode: their potentials are real, each fibre one, but small.
 *
 * @param units how many, 0 to 100
 * @param fibresPerUnit fibres of each within reach, 1 to 100
 * @param nearestMm no fibre is nearer, 0.3 mm or more
 * @param farthestMm none farther, up to 10 mm
 * @param lowestRateHz slowest unit, 1 Hz or more
 * @param highestRateHz fastest, up to 40 Hz
 */
public record BackgroundSettings(
    int units,
    int fibresPerUnit,
    double nearestMm,
    double farthestMm,
    double lowestRateHz,
    double highestRateHz) {

  /** Refuses what lies outside the stated ranges. */
  public BackgroundSettings {
    if (units < 0 || units > 100 || fibresPerUnit < 1 || fibresPerUnit > 100) {
      throw new IllegalArgumentException(
          "background must be 0 to 100 units of 1 to 100 fibres, found "
              + units
              + " of "
              + fibresPerUnit);
    }
    if (!(nearestMm >= 0.3 && farthestMm > nearestMm && farthestMm <= 10)) {
      throw new IllegalArgumentException(
          "background fibres must lie within 0.3 to 10 mm, found "
              + nearestMm
              + " to "
              + farthestMm);
    }
    if (!(lowestRateHz >= 1 && highestRateHz >= lowestRateHz && highestRateHz <= 40)) {
      throw new IllegalArgumentException(
          "background rates must be 1 to 40 Hz, found " + lowestRateHz + " to " + highestRateHz);
    }
  }

  /** Five units of 12 fibres, 1 to 4 mm away, 8 to 14 Hz: slight effort, engineering choices. */
  public static BackgroundSettings defaults() {
    return new BackgroundSettings(5, 12, 1, 4, 8, 14);
  }

  /** Nobody else. */
  public static BackgroundSettings none() {
    return defaults().withUnits(0);
  }

  /** Another number of units. */
  public BackgroundSettings withUnits(int newUnits) {
    return new BackgroundSettings(
        newUnits, fibresPerUnit, nearestMm, farthestMm, lowestRateHz, highestRateHz);
  }

  /** Other distances. */
  public BackgroundSettings withinMm(double newNearestMm, double newFarthestMm) {
    return new BackgroundSettings(
        units, fibresPerUnit, newNearestMm, newFarthestMm, lowestRateHz, highestRateHz);
  }
}
