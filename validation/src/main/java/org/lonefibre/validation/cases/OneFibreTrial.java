package org.lonefibre.validation.cases;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.discharge.DischargeFinder;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.grading.PotentialGrader;
import org.lonefibre.analysis.potential.PotentialTracker;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.simulation.AmplifierSettings;
import org.lonefibre.model.simulation.ExplicitRecording;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * A recording of 62 discharges with two potentials: one of a lone fibre, and 1 to 2.2 ms from it
 * one to be judged, which a second fibre may have joined.
 *
 * <ul>
 *   <li>Amplitudes 0.4 to 2.8 mV, each fibre at the distance that gives it; jitter (MCD) of both
 *       fibres 15 to 60 us, of the lone one 11 to 23 us; engineering choices.
 *   <li>The hard case: amplitude varies from sweep to sweep by 6 %, width by 2 %, and 5 % of the
 *       sweeps have a foreign potential within 600 us.
 *   <li>A trial is a function of its condition and number alone.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class OneFibreTrial {

  private static final int DISCHARGES = 62;
  private static final double STEP_US = 2;
  private static final double KEPT_BEFORE_US = 4000;
  private static final double KEPT_AFTER_US = 6000;
  private static final double FAR_US = 250;

  /** Noise before the chain's filter over noise behind it, 50 kHz (measured). */
  private static final double FILTER_GAIN = 1.45;

  private final Condition condition;
  private final RandomStream stream;
  private final FibrePotentialSolver solver;

  private OneFibreTrial(Condition condition, long number) {
    this.condition = condition;
    this.stream = RandomStream.of(9000).child(condition.key()).child(number);
    this.solver = condition.shapes().solver(Tissue.defaults());
  }

  /** How large the second fibre is. */
  public enum Second {
    /** There is none. */
    NONE,
    /** 0.1 to 0.25 of the first. */
    SMALL,
    /** 0.25 to 1 of the first. */
    LARGE
  }

  /**
   * What trials have in common.
   *
   * @param shapes the model that makes the potentials
   * @param snrRatio peak to peak over noise as the chain conditions it
   * @param hard the hard case
   * @param second the second fibre
   */
  public record Condition(ShapeFamily shapes, double snrRatio, boolean hard, Second second) {

    /** Names the stream of random numbers: not to be changed, or all trials are others. */
    private String key() {
      return "Condition[shapes=%s, snr=%s, hard=%s, second=%s]"
          .formatted(shapes, snrRatio, hard, second);
    }
  }

  /**
   * What became of one trial.
   *
   * @param sizeRatio size of the second fibre over the first, 0 without one
   * @param delayUs its delay
   * @param apart whether it was measured as a potential of its own
   * @param graded the judgement; null if the potential was not found
   */
  public record Outcome(
      double sizeRatio, double delayUs, boolean apart, @Nullable GradedPotential graded) {}

  /** Records and judges one. */
  public static Outcome run(Condition condition, long number) {
    return new OneFibreTrial(condition, number).run();
  }

  private record Spike(double[] values, double referenceUs) {}

  private double between(String name, double low, double high) {
    return low + (high - low) * stream.child(name).uniformProbability();
  }

  private double sign(String name) {
    return stream.child(name).happens(0.5) ? 1 : -1;
  }

  private Outcome run() {
    double amplitudeUv = 400 * Math.pow(7, between("amplitude", 0, 1));
    double offsetUs = sign("side") * between("offset", 1000, 2200);
    double sizeRatio =
        switch (condition.second()) {
          case NONE -> 0;
          case SMALL -> between("size", 0.1, 0.25);
          case LARGE -> between("size", 0.25, 1);
        };
    double delayUs = sign("order") * between("delay", 50, 400);
    SimulatedRecording recording = record(amplitudeUv, offsetUs, sizeRatio, delayUs);
    AnalysisSettings settings = AnalysisSettings.defaultsFor("single-fibre");
    try {
      ConditionedSignal signal =
          new Conditioner(settings.conditioning())
              .condition(
                  recording,
                  recording.channels().get(0),
                  0,
                  recording.channels().get(0).segments().get(0).endSample());
      List<TrackedUnit> units =
          new PotentialTracker(settings.potential())
              .follow(signal, new DischargeFinder(settings.discharge()).find(signal))
              .units();
      return outcome(
          new PotentialGrader(settings.grading(), signal),
          signal,
          units,
          new double[] {offsetUs, sizeRatio, delayUs});
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Outcome outcome(
      PotentialGrader grader, ConditionedSignal signal, List<TrackedUnit> units, double[] truth) {
    TrackedUnit unit = null;
    TrackedPotential judged = null;
    double nearest = FAR_US;
    for (TrackedUnit each : units) {
      for (TrackedPotential one : each.potentials()) {
        for (TrackedPotential other : each.potentials()) {
          double lagUs = signal.timeBase().durationUs(one.lagSamples() - other.lagSamples());
          if (one != other
              && Math.abs(lagUs - truth[0]) < nearest
              && other.presentCount() > DISCHARGES / 2) {
            nearest = Math.abs(lagUs - truth[0]);
            judged = one;
            unit = each;
          }
        }
      }
    }
    if (unit == null || judged == null) {
      return new Outcome(truth[1], truth[2], false, null);
    }
    return new Outcome(
        truth[1],
        truth[2],
        truth[1] > 0 && unit.potentials().size() > 2,
        grader.grade(units, unit).get(unit.potentials().indexOf(judged)));
  }

  private SimulatedRecording record(
      double amplitudeUv, double offsetUs, double sizeRatio, double delayUs) {
    double[] fired = new double[DISCHARGES];
    RandomStream firing = stream.child("firing");
    double at = 0.15;
    double intervalS = between("interval", 0.075, 0.105);
    for (int d = 0; d < DISCHARGES; d++) {
      fired[d] = at;
      at += intervalS * Math.max(0.6, 1 + 0.12 * firing.gaussianRatio());
    }
    ExplicitRecording recording =
        new ExplicitRecording(
            50_000,
            at + 0.1,
            AmplifierSettings.defaults()
                .withNoiseUv(FILTER_GAIN * amplitudeUv / condition.snrRatio()));
    double[][] changes = changes();
    place(
        recording,
        spike("lone", amplitudeUv * between("lone size", 1.5, 3.5)),
        moved(fired, "lone", 0, between("lone jitter", 10, 20)),
        changes);
    double[] times = moved(fired, "first", offsetUs, between("first jitter", 15, 60) / 1.128);
    place(recording, spike("first", amplitudeUv), times, changes);
    double secondUs = between("second jitter", 15, 60) / 1.128;
    if (sizeRatio > 0) {
      place(
          recording,
          spike("second", sizeRatio * amplitudeUv),
          moved(fired, "second", offsetUs + delayUs, secondUs),
          changes);
    }
    if (condition.hard()) {
      foreign(recording, amplitudeUv, times);
    }
    return recording.finish(stream.child("noise").nextBits() >>> 1);
  }

  private double[] moved(double[] fired, String fibre, double offsetUs, double deviationUs) {
    RandomStream own = stream.child(fibre).child("jitter");
    return Arrays.stream(fired)
        .map(t -> t + 1e-6 * (offsetUs + deviationUs * own.gaussianRatio()))
        .toArray();
  }

  private void foreign(ExplicitRecording recording, double amplitudeUv, double[] times) {
    RandomStream own = stream.child("foreign");
    double[] some =
        Arrays.stream(times)
            .filter(t -> own.happens(0.05))
            .map(t -> t + 1e-6 * (1200 * own.uniformProbability() - 600))
            .toArray();
    Spike spike = spike("foreign", amplitudeUv * between("foreign size", 0.5, 2.5));
    recording.place(spike.values(), STEP_US, spike.referenceUs(), some);
  }

  /** Amplitude and width of each sweep, over the usual ones. */
  private double[][] changes() {
    RandomStream own = stream.child("changes");
    double[][] changes = new double[DISCHARGES][];
    for (int d = 0; d < DISCHARGES; d++) {
      changes[d] =
          condition.hard()
              ? new double[] {1 + 0.06 * own.gaussianRatio(), 1 + 0.02 * own.gaussianRatio()}
              : new double[] {1, 1};
    }
    return changes;
  }

  private void place(ExplicitRecording recording, Spike spike, double[] times, double[][] changes) {
    if (!condition.hard()) {
      recording.place(spike.values(), STEP_US, spike.referenceUs(), times);
      return;
    }
    for (int d = 0; d < times.length; d++) {
      recording.place(
          changed(spike, changes[d][0], changes[d][1]),
          STEP_US,
          spike.referenceUs(),
          new double[] {times[d]});
    }
  }

  private static double[] changed(Spike spike, double size, double width) {
    double centre = spike.referenceUs() / STEP_US;
    double[] values = new double[spike.values().length];
    for (int i = 0; i < values.length; i++) {
      double place = centre + (i - centre) / width;
      int k = (int) Math.floor(place);
      if (k >= 0 && k < values.length - 1) {
        values[i] =
            size * (spike.values()[k] + (place - k) * (spike.values()[k + 1] - spike.values()[k]));
      }
    }
    return values;
  }

  private Spike spike(String fibre, double amplitudeUv) {
    RandomStream own = stream.child(fibre).child("fibre");
    FibreGeometry geometry =
        FibreGeometry.defaults()
            .withDiameterUm(Math.min(80, Math.max(35, 55 + 9 * own.gaussianRatio())))
            .withEndPlateDistanceMm(Math.min(40, Math.max(8, 20 + 5 * own.gaussianRatio())));
    FibrePotential potential = solver.solve(solver.atAmplitude(geometry, amplitudeUv), STEP_US, 0);
    double[] values = potential.copyUv();
    double referenceUs = potential.steepestUs() - potential.startUs();
    int from = (int) Math.max(0, (referenceUs - KEPT_BEFORE_US) / STEP_US);
    int to = (int) Math.min(values.length, (referenceUs + KEPT_AFTER_US) / STEP_US);
    double gain = amplitudeUv / potential.amplitudeUv();
    double[] kept = new double[to - from];
    for (int i = 0; i < kept.length; i++) {
      kept[i] = gain * values[from + i];
    }
    return new Spike(kept, referenceUs - from * STEP_US);
  }
}
