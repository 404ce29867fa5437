package org.lonefibre.analysis.reference;

/**
 * How limits are matched.
 *
 * @param memoryRows whether rows from memory are used; default off, until a laboratory has
 *     confirmed them against the printed source
 * @param adultAgeYears sets without age columns hold from this age on unless they state one;
 *     default 18, engineering choice: no set was collected in children
 * @param nextColumnYears an age this close below the next column shows both; default 1, engineering
 *     choice: the printed table may mean ages or decades
 */
public record LimitSettings(MemoryRows memoryRows, double adultAgeYears, double nextColumnYears) {

  /** Whether rows from memory are used. */
  public enum MemoryRows {
    /** They are not. */
    OFF,
    /** They are: the laboratory has confirmed them. */
    CONFIRMED
  }

  /** Refuses ages below 0. */
  public LimitSettings {
    if (!(adultAgeYears >= 0 && nextColumnYears >= 0)) {
      throw new IllegalArgumentException(
          "adultAgeYears and nextColumnYears must be 0 years or more, found "
              + adultAgeYears
              + " and "
              + nextColumnYears);
    }
  }

  /** The values in use unless told otherwise. */
  public static LimitSettings defaults() {
    return new LimitSettings(MemoryRows.OFF, 18, 1);
  }

  /** The same with rows from memory on or off. */
  public LimitSettings withMemoryRows(MemoryRows rows) {
    return new LimitSettings(rows, adultAgeYears, nextColumnYears);
  }
}
