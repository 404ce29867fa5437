package org.lonefibre.model.simulation;

import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.motorunit.FibreScenario;

/** Where potentials of fibres come from. */
interface FibreSource {

  /** A fibre's potential at its place. */
  FibrePotential solve(FibreScenario fibre, double stepUs, double negligibleUv);
}
