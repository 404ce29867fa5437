package org.lonefibre.model.motorunit;

import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;

/**
 * One fibre of a motor unit.
 *
 * <p>Its shape follows from the geometry. Its place in time is stated: the twig of the axon that
 * leads to it is taken to be as long as the stated offset needs, so that offset and shape can be
 * chosen apart.
 *
 * @param id its name, unique within the recording
 * @param geometry where it lies
 * @param offsetUs mean arrival (steepest point of the recorded potential) after the discharge, or
 *     the stimulus, -20,000 to 50,000 us
 * @param endPlate the law of its end-plate
 * @param endPlateId name of its end-plate; fibres with one name share all that happens there (a
 *     split fibre), by the law of the first
 * @param conductionDeviationUs standard deviation of the conduction time along this fibre alone, 0
 *     to 100 us
 * @param branchId name of its axon branch; empty for none
 * @param directionDeg where it lies about a solved needle: from the core's outward normal towards
 *     the tip, across the fibres, -360 to 360; other electrodes hear the same from everywhere
 */
public record FibreScenario(
    String id,
    FibreGeometry geometry,
    double offsetUs,
    EndPlateSettings endPlate,
    String endPlateId,
    double conductionDeviationUs,
    String branchId,
    double directionDeg) {

  /** Refuses what lies outside the stated ranges. */
  public FibreScenario {
    if (!(offsetUs >= -20_000 && offsetUs <= 50_000)) {
      throw new IllegalArgumentException(
          "offset of fibre " + id + " must be -20,000 to 50,000 us, found " + offsetUs);
    }
    if (!(conductionDeviationUs >= 0 && conductionDeviationUs <= 100)) {
      throw new IllegalArgumentException(
          "deviation of conduction of fibre "
              + id
              + " must be 0 to 100 us, found "
              + conductionDeviationUs);
    }
    if (!(Math.abs(directionDeg) <= 360)) {
      throw new IllegalArgumentException(
          "direction of fibre " + id + " must be -360 to 360 degrees, found " + directionDeg);
    }
  }

  /** A fibre with an end-plate of its own and steady conduction. */
  public static FibreScenario of(
      String id, FibreGeometry geometry, double offsetUs, EndPlateSettings endPlate) {
    return new FibreScenario(id, geometry, offsetUs, endPlate, id, 0, "", 0);
  }

  /** The same fibre, supplied by an end-plate of the given name. */
  public FibreScenario withEndPlateId(String newEndPlateId) {
    return new FibreScenario(
        id,
        geometry,
        offsetUs,
        endPlate,
        newEndPlateId,
        conductionDeviationUs,
        branchId,
        directionDeg);
  }

  /** The same fibre with unsteady conduction. */
  public FibreScenario withConductionDeviationUs(double newConductionDeviationUs) {
    return new FibreScenario(
        id,
        geometry,
        offsetUs,
        endPlate,
        endPlateId,
        newConductionDeviationUs,
        branchId,
        directionDeg);
  }

  /** The same fibre on a branch of the axon. */
  public FibreScenario withBranchId(String newBranchId) {
    return new FibreScenario(
        id,
        geometry,
        offsetUs,
        endPlate,
        endPlateId,
        conductionDeviationUs,
        newBranchId,
        directionDeg);
  }

  /** The same fibre with another end-plate. */
  public FibreScenario withEndPlate(EndPlateSettings newEndPlate) {
    return new FibreScenario(
        id,
        geometry,
        offsetUs,
        newEndPlate,
        endPlateId,
        conductionDeviationUs,
        branchId,
        directionDeg);
  }

  /** The same fibre elsewhere about the needle. */
  public FibreScenario withPlace(FibreGeometry newGeometry, double newDirectionDeg) {
    return new FibreScenario(
        id,
        newGeometry,
        offsetUs,
        endPlate,
        endPlateId,
        conductionDeviationUs,
        branchId,
        newDirectionDeg);
  }
}
