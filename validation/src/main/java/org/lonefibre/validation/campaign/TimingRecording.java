package org.lonefibre.validation.campaign;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.simulation.AmplifierSettings;
import org.lonefibre.model.simulation.ExplicitRecording;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;

/** Two potentials of one unit at known times, in noise of a known spectrum. */
final class TimingRecording implements Recording {

  static final int DISCHARGES = 100;

  private static final double AMPLITUDE_UV = 1500;
  private static final double SIZE_RATIO = 0.8;
  private static final double DURATION_S = 10.6;
  private static final double LEAD_S = 0.15;
  private static final double JITTER_US = 15;
  private static final AmplifierSettings AMPLIFIER = new AmplifierSettings(0, 10_000, 0, 0, 4_096);

  private static final FibrePotential POTENTIAL = potential();

  private final SimulatedRecording clean;
  private final double[] samples;
  private final double[] firstS = new double[DISCHARGES];
  private final double[] secondS = new double[DISCHARGES];

  private TimingRecording(TimingCell cell, double noiseUv, RandomStream random) {
    double timeS = LEAD_S;
    for (int d = 0; d < DISCHARGES; d++) {
      firstS[d] = timeS + JITTER_US * 1e-6 * random.gaussianRatio();
      secondS[d] = timeS + (cell.distanceUs() + JITTER_US * random.gaussianRatio()) * 1e-6;
      timeS += 0.1 * (1 + 0.08 * Math.max(-3, Math.min(3, random.gaussianRatio())));
    }
    ExplicitRecording explicit = new ExplicitRecording(cell.rateHz(), DURATION_S, AMPLIFIER);
    place(explicit, 1, firstS);
    place(explicit, SIZE_RATIO, secondS);
    clean = explicit.finish(0);
    double[] noise = new double[(int) clean.channels().get(0).sampleCount()];
    for (int i = 0; i < noise.length; i++) {
      noise[i] = random.gaussianRatio();
    }
    cell.colour(noise);
    samples = new double[noise.length];
    clean.read(clean.channels().get(0), 0, samples, 0, samples.length);
    for (int i = 0; i < noise.length; i++) {
      samples[i] += noiseUv * noise[i];
    }
  }

  /** One recording; noise is the deviation of the white noise before it is coloured. */
  static TimingRecording of(TimingCell cell, double noiseUv, RandomStream random) {
    return new TimingRecording(cell, noiseUv, random);
  }

  /** The larger potential as sampled, without noise. */
  static double[] shape(double rateHz) {
    ExplicitRecording one = new ExplicitRecording(rateHz, 0.02, AMPLIFIER);
    place(one, 1, new double[] {0.01});
    SimulatedRecording made = one.finish(0);
    double[] shape = new double[(int) made.channels().get(0).sampleCount()];
    made.read(made.channels().get(0), 0, shape, 0, shape.length);
    return shape;
  }

  static double sizeRatio() {
    return SIZE_RATIO;
  }

  /** Jitter of the pair that the generating law gives. */
  static double pairJitterUs() {
    return 2 / Math.sqrt(Math.PI) * Math.sqrt(2) * JITTER_US;
  }

  double firstS(int discharge) {
    return firstS[discharge];
  }

  double secondS(int discharge) {
    return secondS[discharge];
  }

  private static FibrePotential potential() {
    FibrePotentialSolver solver = ShapeFamily.CUBIC_POINT.solver(Tissue.defaults());
    FibreGeometry fibre = solver.atAmplitude(FibreGeometry.defaults(), AMPLITUDE_UV);
    return solver.solve(fibre, 1, 0.01);
  }

  private static void place(ExplicitRecording recording, double size, double[] timesS) {
    double[] values = POTENTIAL.copyUv();
    for (int k = 0; k < values.length; k++) {
      values[k] *= size;
    }
    double referenceUs = POTENTIAL.steepestUs() - POTENTIAL.startUs();
    recording.place(values, POTENTIAL.stepUs(), referenceUs, timesS);
  }

  @Override
  public String format() {
    return "simulation";
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.empty();
  }

  @Override
  public List<Channel> channels() {
    return clean.channels();
  }

  @Override
  public List<Annotation> annotations() {
    return List.of();
  }

  @Override
  public List<Finding> findings() {
    return List.of();
  }

  @Override
  public void read(
      Channel channel, long firstSample, double[] destination, int offset, int length) {
    System.arraycopy(samples, (int) firstSample, destination, offset, length);
  }

  @Override
  public void close() throws IOException {}
}
