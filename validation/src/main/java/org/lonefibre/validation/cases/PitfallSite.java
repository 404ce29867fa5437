package org.lonefibre.validation.cases;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.AxonBranch;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.simulation.AmplifierSettings;
import org.lonefibre.model.simulation.BackgroundSettings;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulationScenario;
import org.lonefibre.model.simulation.StimulationScenario;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * A site in the making. Each number is drawn from a stream of its own name, so that a site with a
 * pitfall and the same site without it differ in nothing else.
 */
final class PitfallSite {

  private static final double DOUBLET_MS = 6;
  private static final double DURATION_S = 12;

  private final RandomStream stream;
  private final FibrePotentialSolver solver = ShapeFamily.CUBIC_POINT.solver(Tissue.defaults());
  private final List<FibreScenario> fibres = new ArrayList<>();
  private final List<MotorUnitScenario> axons = new ArrayList<>();
  private double doubletProbability;
  private double axonDeviationUs = 5;
  private List<AxonBranch> branches = List.of();
  private @Nullable StimulationScenario stimulation;

  PitfallSite(RandomStream stream) {
    this.stream = stream;
  }

  /** A number between two, the same for every call with the same name. */
  double between(String name, double low, double high) {
    return low + (high - low) * stream.child(name).uniformProbability();
  }

  /** A healthy end-plate. */
  EndPlateSettings healthy(String name) {
    return EndPlateSettings.gaussian(between(name, 12, 22));
  }

  /** The largest potential. */
  PitfallSite trigger(EndPlateSettings endPlate) {
    return fibre("trigger", between("size", 1200, 3000), 0, endPlate);
  }

  /** A smaller one 0.6 to 1.4 ms behind the trigger. */
  PitfallSite follower(EndPlateSettings endPlate) {
    return fibre("follower", followerUv(), followerUs(), endPlate);
  }

  /** Another, as far before it. */
  PitfallSite forerunner(EndPlateSettings endPlate) {
    return fibre(
        "forerunner", between("early size", 450, 1000), -between("early", 600, 1400), endPlate);
  }

  /** A fibre close to the follower, by a share of its size. */
  PitfallSite beside(double sizeRatio, double delayUs, EndPlateSettings endPlate) {
    return fibre("beside", sizeRatio * followerUv(), followerUs() + delayUs, endPlate);
  }

  double followerUv() {
    return between("late size", 450, 1000);
  }

  double followerUs() {
    return between("late", 600, 1400);
  }

  PitfallSite fibre(String id, double amplitudeUv, double offsetUs, EndPlateSettings endPlate) {
    FibreGeometry geometry =
        FibreGeometry.defaults().withDiameterUm(between(id + " diameter", 45, 65));
    fibres.add(
        FibreScenario.of(id, solver.atAmplitude(geometry, amplitudeUv), offsetUs, endPlate)
            .withConductionDeviationUs(1));
    return this;
  }

  /** The last fibre and the one named are branches of one. */
  PitfallSite splitWith(String id) {
    int last = fibres.size() - 1;
    fibres.set(last, fibres.get(last).withEndPlateId(id));
    return this;
  }

  /** All fibres but the trigger hang on a branch that blocks. */
  PitfallSite branchBlocks(double probability) {
    branches = List.of(new AxonBranch("branch", probability, 3));
    fibres.replaceAll(fibre -> fibre.id().equals("trigger") ? fibre : fibre.withBranchId("branch"));
    return this;
  }

  PitfallSite doublets(double probability) {
    doubletProbability = probability;
    return this;
  }

  PitfallSite axonDeviationUs(double us) {
    axonDeviationUs = us;
    return this;
  }

  /** Stimulated, 100 times at 9 to 11 Hz. */
  PitfallSite stimulated(StimulationScenario.Subliminal subliminal) {
    stimulation =
        StimulationScenario.defaults()
            .withTrain(between("stimulus rate", 9, 11), 100)
            .withSubliminal(subliminal);
    return this;
  }

  /** What was added since belongs to an axon of its own. */
  PitfallSite axon(String id) {
    axons.add(
        new MotorUnitScenario(
            id,
            FiringSettings.defaults()
                .withRateHz(between("rate", 9.5, 13))
                .withVariationRatio(between("variation", 0.1, 0.17))
                .withDoublets(doubletProbability, DOUBLET_MS),
            axonDeviationUs,
            branches,
            fibres));
    fibres.clear();
    return this;
  }

  SimulationScenario scenario() {
    if (!fibres.isEmpty()) {
      axon("unit");
    }
    SimulationScenario site =
        SimulationScenario.defaults()
            .withSite("pitfall")
            .withDurationS(DURATION_S)
            .withAmplifier(AmplifierSettings.defaults().withNoiseUv(between("noise", 6, 14)))
            .withBackground(
                BackgroundSettings.defaults().withUnits((int) between("background", 2, 7)))
            .withUnits(axons);
    return stimulation == null ? site : site.withStimulation(stimulation);
  }
}
