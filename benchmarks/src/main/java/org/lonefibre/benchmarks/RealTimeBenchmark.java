package org.lonefibre.benchmarks;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.discharge.DischargeFinder;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The steps of an analysis, each from the file on. An operation is a second of recording, so that
 * operations a second are multiples of real time.
 *
 * <ul>
 *   <li>Thread rule: for one thread, on one core.
 * </ul>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(
    value = 1,
    jvmArgs = {"-XX:ActiveProcessorCount=1", "-XX:+UseSerialGC", "-Xmx1g"})
@Warmup(iterations = 2, time = 5)
@Measurement(iterations = 3, time = 5)
public class RealTimeBenchmark {

  /** Number of motor units near the needle. */
  @Param({"1", "2"})
  public int units;

  private SimulatedMinute minute;
  private double[] samples;

  /** For the harness, which calls {@link #record} before anything else. */
  @SuppressWarnings("NullAway.Init")
  public RealTimeBenchmark() {}

  /** Records the site and keeps it as a file. */
  @Setup(Level.Trial)
  public void record() throws IOException {
    minute = SimulatedMinute.record(units);
    try (Recording recording = minute.open()) {
      samples = new double[Math.toIntExact(SimulatedMinute.samples(needle(recording)))];
    }
  }

  /** Removes the file. */
  @TearDown(Level.Trial)
  public void remove() throws IOException {
    minute.close();
  }

  /** EDF+ of 16 bit to microvolts in double. */
  @Benchmark
  @OperationsPerInvocation(SimulatedMinute.DURATION_S)
  public double[] reading() throws IOException {
    try (Recording recording = minute.open()) {
      recording.read(needle(recording), 0, samples, 0, samples.length);
      return samples;
    }
  }

  /** Reading and conditioning. */
  @Benchmark
  @OperationsPerInvocation(SimulatedMinute.DURATION_S)
  public ConditionedSignal conditioning() throws IOException {
    try (Recording recording = minute.open()) {
      return condition(recording);
    }
  }

  /** Reading, conditioning and finding the discharges of motor units. */
  @Benchmark
  @OperationsPerInvocation(SimulatedMinute.DURATION_S)
  public Discharges detection() throws IOException {
    try (Recording recording = minute.open()) {
      return new DischargeFinder(settings().discharge()).find(condition(recording));
    }
  }

  /** From the file to the judged site. */
  @Benchmark
  @OperationsPerInvocation(SimulatedMinute.DURATION_S)
  public RecordingResult wholeChain() throws IOException {
    try (Recording recording = minute.open()) {
      SiteRequest request =
          new SiteRequest(
              "minute.edf",
              "",
              needle(recording),
              null,
              List.of(),
              "site",
              0,
              Double.POSITIVE_INFINITY,
              Activation.VOLUNTARY);
      return new SiteAnalyser(settings()).analyse(recording, request);
    }
  }

  private ConditionedSignal condition(Recording recording) throws IOException {
    return new Conditioner(settings().conditioning())
        .condition(recording, needle(recording), 0, samples.length);
  }

  private static Channel needle(Recording recording) {
    return recording.channels().get(0);
  }

  private static AnalysisSettings settings() {
    return AnalysisSettings.defaultsFor("concentric-standard");
  }
}
