package org.lonefibre.validation.cases;

import java.util.function.UnaryOperator;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.simulation.RecordingSimulator;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StimulationScenario.Subliminal;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.FindingCode;

/**
 * A known pitfall of jitter studies: sites that hold it, and the same sites without it. Sizes are
 * engineering choices, about as large as they would have to be to matter.
 *
 * <ul>
 *   <li>A site is a function of the pitfall and its number alone.
 *   <li>Thread rule: safe.
 * </ul>
 */
public enum Pitfall {
  /** An end-plate with two latencies 90 to 250 us apart. */
  FLIP_FLOP(
      FindingCode.TWO_CLUSTERS,
      "flip-flop of 90 to 250 us, changing in 10 to 40 % of the discharges",
      s -> pair(s, s.healthy("plate").withFlipFlop(s.between("flip", 90, 250), often(s))),
      s -> pair(s, s.healthy("plate"))),

  /** An interval that drifts. */
  DRIFTING(
      FindingCode.TREND,
      "interval drifting by 1 to 4 us a discharge",
      s -> pair(s, s.healthy("plate").withTrendPerDischargeUs(s.between("trend", 1, 4))),
      s -> pair(s, s.healthy("plate"))),

  /** Velocity recovery. */
  RECOVERY(
      FindingCode.RATE_DEPENDENCE,
      "velocity recovery of 2 to 6 us a ms of the preceding interval",
      s -> pair(s, s.healthy("plate").withRecoveryPerMsUs(s.between("recovery", 2, 6))),
      s -> pair(s, s.healthy("plate"))),

  /** Two branches of one fibre. */
  SPLIT_FIBRE(
      FindingCode.LOW_JITTER,
      "split fibre",
      s -> pair(s, s.healthy("trigger plate")).splitWith("trigger"),
      s -> pair(s, s.healthy("plate"))),

  /** The trigger's end-plate is the unsteady one. */
  UNSTEADY_TRIGGER(
      FindingCode.TRIGGER_ABNORMAL,
      "trigger of 50 to 90 us, two healthy followers",
      s -> triple(s, EndPlateSettings.gaussian(s.between("unsteady", 50, 90)), s.healthy("plate")),
      s -> triple(s, s.healthy("trigger plate"), s.healthy("plate"))),

  /** A branch of the axon blocks; without it, both end-plates block as often, each alone. */
  BRANCH_BLOCKS(
      FindingCode.AXONAL_BLOCK,
      "paired blocking: a branch of the axon that blocks in 8 to 25 % (without: both end-plates, each"
          + " alone)",
      s ->
          triple(s, s.healthy("trigger plate"), s.healthy("plate"))
              .branchBlocks(s.between("blocks", 0.08, 0.25)),
      s ->
          s.trigger(s.healthy("trigger plate"))
              .follower(blocking(s, s.healthy("plate")))
              .forerunner(blocking(s, s.healthy("early plate")))),

  /** The largest potential blocks; without it, the follower does. */
  TRIGGER_BLOCKS(
      FindingCode.TRIGGER_BLOCKING,
      "trigger that blocks in 8 to 25 % (without: the follower)",
      s -> s.trigger(blocking(s, s.healthy("trigger plate"))).follower(s.healthy("plate")),
      s -> pair(s, blocking(s, s.healthy("plate")))),

  /** A second fibre in a potential that blocks; without it, the two fibres stay together. */
  COMPONENT_BLOCKS(
      FindingCode.COMPONENT_DROP_OUT,
      "second fibre in the potential, of half its size or more, that blocks in 8 to 25 % (without:"
          + " it does not)",
      s ->
          pair(s, s.healthy("plate"))
              .beside(size(s), near(s), blocking(s, s.healthy("second plate"))),
      s -> pair(s, s.healthy("plate")).beside(size(s), near(s), s.healthy("second plate"))),

  /** As before, of unsteady fibres: what moves much looks like what comes and goes. */
  UNSTEADY_COMPONENT_BLOCKS(
      FindingCode.COMPONENT_DROP_OUT,
      "the same with two unsteady fibres of 40 to 70 us (without: neither blocks)",
      s -> pair(s, unsteady(s)).beside(size(s), near(s), blocking(s, unsteady(s))),
      s -> pair(s, unsteady(s)).beside(size(s), near(s), unsteady(s))),

  /** A second fibre in a potential. */
  SECOND_FIBRE(
      FindingCode.NOT_PARALLEL,
      "second fibre in the potential, of half its size or more",
      s -> pair(s, s.healthy("plate")).beside(size(s), near(s), s.healthy("second plate")),
      s -> pair(s, s.healthy("plate"))),

  /** Discharges in twos. */
  DOUBLETS(
      FindingCode.DOUBLETS,
      "4 to 15 % of the discharges are doublets",
      s -> pair(s, s.healthy("plate")).doublets(s.between("doublets", 0.04, 0.15)),
      s -> pair(s, s.healthy("plate"))),

  /** A stimulus near threshold; without it, the end-plate blocks as often by itself. */
  WEAK_STIMULUS(
      FindingCode.SUBLIMINAL_STIMULATION,
      "stimulus near threshold in a third of the train (without: an end-plate that blocks in 15 %)",
      s -> evoked(s, s.healthy("plate")).stimulated(Subliminal.middleThird("unit")),
      s ->
          evoked(s, s.healthy("plate").withBlockingProbability(0.15))
              .stimulated(Subliminal.never())),

  /** The current reaches the muscle fibre. */
  DIRECT(
      FindingCode.DIRECT_STIMULATION,
      "muscle fibre stimulated directly",
      s -> evoked(s, EndPlateSettings.constant()).axonDeviationUs(0).stimulated(Subliminal.never()),
      s -> evoked(s, s.healthy("plate")).stimulated(Subliminal.never())),

  /** An unsteady axon. */
  UNSTEADY_AXON(
      FindingCode.COMMON_LATENCY,
      "axon of 20 to 40 us, two end-plates",
      s -> twoEvoked(s).axonDeviationUs(s.between("axon", 20, 40)).stimulated(Subliminal.never()),
      s -> twoEvoked(s).axonDeviationUs(0).stimulated(Subliminal.never())),

  /** The response takes one of two ways. */
  AXON_REFLEX(
      FindingCode.TWO_CLUSTERS,
      "axon reflex: latency of one of two ways, 300 to 900 us apart",
      s ->
          evoked(s, s.healthy("plate").withFlipFlop(s.between("way", 300, 900), often(s)))
              .stimulated(Subliminal.never()),
      s -> evoked(s, s.healthy("plate")).stimulated(Subliminal.never()));

  private final FindingCode code;
  private final String title;
  private final UnaryOperator<PitfallSite> with;
  private final UnaryOperator<PitfallSite> without;

  Pitfall(
      FindingCode code,
      String title,
      UnaryOperator<PitfallSite> with,
      UnaryOperator<PitfallSite> without) {
    this.code = code;
    this.title = title;
    this.with = with;
    this.without = without;
  }

  private static PitfallSite pair(PitfallSite s, EndPlateSettings follower) {
    return s.trigger(s.healthy("trigger plate")).follower(follower);
  }

  private static PitfallSite triple(
      PitfallSite s, EndPlateSettings trigger, EndPlateSettings follower) {
    return s.trigger(trigger).follower(follower).forerunner(s.healthy("early plate"));
  }

  private static PitfallSite evoked(PitfallSite s, EndPlateSettings endPlate) {
    return s.fibre(
        "first", s.between("size", 800, 2500), s.between("latency", 3500, 7000), endPlate);
  }

  private static PitfallSite twoEvoked(PitfallSite s) {
    return evoked(s, s.healthy("plate"))
        .fibre(
            "second",
            s.between("size 2", 600, 1500),
            s.between("late", 8500, 12_000),
            s.healthy("plate 2"));
  }

  private static EndPlateSettings blocking(PitfallSite s, EndPlateSettings endPlate) {
    return endPlate.withBlockingProbability(s.between("blocks", 0.08, 0.25));
  }

  private static EndPlateSettings unsteady(PitfallSite s) {
    return EndPlateSettings.gaussian(s.between("unsteady", 40, 70));
  }

  private static double often(PitfallSite s) {
    return s.between("often", 0.1, 0.4);
  }

  private static double size(PitfallSite s) {
    return s.between("share", 0.5, 1);
  }

  private static double near(PitfallSite s) {
    return (s.between("side", -1, 1) < 0 ? -1 : 1) * s.between("apart", 80, 280);
  }

  /** What the chain should say about it. */
  public FindingCode code() {
    return code;
  }

  /** What it is, and what the sites without it are if that is not the same site and no more. */
  public String title() {
    return title;
  }

  /** Whether its sites are stimulated. */
  public boolean isStimulated() {
    return switch (this) {
      case WEAK_STIMULUS, DIRECT, UNSTEADY_AXON, AXON_REFLEX -> true;
      default -> false;
    };
  }

  /** A site that holds it. */
  public SimulatedRecording simulateWith(long number) {
    return simulate(with, number);
  }

  /** The site without it. */
  public SimulatedRecording simulateWithout(long number) {
    return simulate(without, number);
  }

  /** A site with a second fibre in a potential that blocks, of a given share of its size. */
  public static SimulatedRecording simulateDropOut(double sizeRatio, long number) {
    return simulate(
        s ->
            pair(s, s.healthy("plate"))
                .beside(sizeRatio, near(s), blocking(s, s.healthy("second plate"))),
        RandomStream.of(number).child("drop-out"));
  }

  private SimulatedRecording simulate(UnaryOperator<PitfallSite> kind, long number) {
    return simulate(kind, RandomStream.of(number).child(name()));
  }

  private static SimulatedRecording simulate(UnaryOperator<PitfallSite> kind, RandomStream stream) {
    PitfallSite site = kind.apply(new PitfallSite(stream.child("site")));
    return new RecordingSimulator().simulate(site.scenario(), stream.child("recording"));
  }
}
