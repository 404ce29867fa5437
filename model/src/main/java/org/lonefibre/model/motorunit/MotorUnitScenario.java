package org.lonefibre.model.motorunit;

import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A motor unit within reach of the electrode.
 *
 * @param id its name, unique within the recording
 * @param firing how it fires; ignored under stimulation
 * @param axonDeviationUs standard deviation of the axon's conduction time, common to all its
 *     fibres, 0 to 200 us
 * @param branches branches of the axon that fibres name
 * @param fibres one or more
 */
public record MotorUnitScenario(
    String id,
    FiringSettings firing,
    double axonDeviationUs,
    List<AxonBranch> branches,
    List<FibreScenario> fibres) {

  /** Refuses a unit without fibres, doubled names and unknown branches. */
  public MotorUnitScenario {
    branches = List.copyOf(branches);
    fibres = List.copyOf(fibres);
    if (fibres.isEmpty()) {
      throw new IllegalArgumentException("motor unit " + id + " has no fibres");
    }
    if (!(axonDeviationUs >= 0 && axonDeviationUs <= 200)) {
      throw new IllegalArgumentException(
          "deviation of the axon's conduction must be 0 to 200 us, found " + axonDeviationUs);
    }
    Set<String> known = new HashSet<>();
    for (AxonBranch branch : branches) {
      known.add(branch.id());
    }
    Set<String> seen = new HashSet<>();
    for (FibreScenario fibre : fibres) {
      if (!seen.add(fibre.id())) {
        throw new IllegalArgumentException("two fibres are named " + fibre.id());
      }
      if (!fibre.branchId().isEmpty() && !known.contains(fibre.branchId())) {
        throw new IllegalArgumentException(
            "fibre " + fibre.id() + " names an unknown branch " + fibre.branchId());
      }
    }
  }

  /** A unit with a steady, unbranched axon. */
  public static MotorUnitScenario of(String id, FiringSettings firing, List<FibreScenario> fibres) {
    return new MotorUnitScenario(id, firing, 0, List.of(), fibres);
  }

  /** The same unit with an unsteady axon. */
  public MotorUnitScenario withAxonDeviationUs(double newAxonDeviationUs) {
    return new MotorUnitScenario(id, firing, newAxonDeviationUs, branches, fibres);
  }

  /** The same unit with branches and the fibres that name them. */
  public MotorUnitScenario withBranches(
      List<AxonBranch> newBranches, List<FibreScenario> newFibres) {
    return new MotorUnitScenario(id, firing, axonDeviationUs, newBranches, newFibres);
  }
}
