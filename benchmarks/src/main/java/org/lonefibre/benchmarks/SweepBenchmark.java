package org.lonefibre.benchmarks;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.discharge.DischargeFinder;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.grading.PotentialGrader;
import org.lonefibre.analysis.interval.IntervalBuilder;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.JitterResult;
import org.lonefibre.analysis.potential.PotentialTracker;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.openjdk.jmh.annotations.AuxCounters;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * What one more sweep of a unit costs. No door takes a single sweep, so arrivals and states are
 * measured over all sweeps of a site (counted: sweeps a second), and what depends on all sweeps of
 * a pair, its jitter and the grades of its potentials, is computed wholly anew.
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
public class SweepBenchmark {

  /** Number of motor units near the needle. */
  @Param({"1", "2"})
  public int units;

  private final AnalysisSettings settings = AnalysisSettings.defaultsFor("concentric-standard");
  private SimulatedMinute minute;
  private Recording recording;
  private ConditionedSignal signal;
  private Discharges discharges;
  private List<TrackedUnit> tracked;

  /** For the harness, which calls {@link #follow} before anything else. */
  @SuppressWarnings("NullAway.Init")
  public SweepBenchmark() {}

  /** Sweeps that were judged in the time measured. */
  @AuxCounters(AuxCounters.Type.OPERATIONS)
  @State(Scope.Thread)
  public static class Judged {

    /** Their number. */
    public long sweeps;
  }

  /** Records the site and follows its units. */
  @Setup(Level.Trial)
  public void follow() throws IOException {
    minute = SimulatedMinute.record(units);
    recording = minute.open();
    Channel needle = recording.channels().get(0);
    signal =
        new Conditioner(settings.conditioning())
            .condition(recording, needle, 0, SimulatedMinute.samples(needle));
    discharges = new DischargeFinder(settings.discharge()).find(signal);
    tracked = tracked();
  }

  /** Removes the file. */
  @TearDown(Level.Trial)
  public void remove() throws IOException {
    recording.close();
    minute.close();
  }

  /** Arrival and state of every potential in every sweep, from the discharges on. */
  @Benchmark
  public List<TrackedUnit> arrivals(Judged judged) {
    List<TrackedUnit> now = tracked();
    judged.sweeps += now.stream().mapToLong(TrackedUnit::discharges).sum();
    return now;
  }

  /** Intervals and jitter of all pairs of a unit. */
  @Benchmark
  public List<JitterResult> jitter() {
    TrackedUnit unit = tracked.get(0);
    IntervalBuilder builder =
        new IntervalBuilder(
            signal.timeBase(), (position, segment) -> signal.timeBase().timeS(position));
    TrackedPotential trigger = unit.potentials().get(0);
    List<JitterResult> results = new ArrayList<>();
    for (int p = 1; p < unit.potentials().size(); p++) {
      IntervalSeries series = builder.pair(unit, trigger, unit.potentials().get(p));
      results.add(new JitterEstimator(settings.jitter()).measure(series));
    }
    return results;
  }

  /** Grades of all potentials of a unit. */
  @Benchmark
  public List<GradedPotential> grade() {
    return new PotentialGrader(settings.grading(), signal).grade(tracked, tracked.get(0));
  }

  private List<TrackedUnit> tracked() {
    return new PotentialTracker(settings.potential()).track(signal, discharges);
  }
}
