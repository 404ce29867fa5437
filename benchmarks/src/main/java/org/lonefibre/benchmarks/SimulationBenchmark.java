package org.lonefibre.benchmarks;

import java.util.concurrent.TimeUnit;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.simulation.RecordingTruth;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * A site of 10 s at 50 kHz, the needle solved: wished fibres with a ring of distant ones, or all
 * the fibres of a sample muscle.
 *
 * <ul>
 *   <li>Thread rule: for one thread, on one core.
 * </ul>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(
    value = 1,
    jvmArgs = {"-XX:ActiveProcessorCount=1", "-XX:+UseSerialGC", "-Xmx1g"})
@Warmup(iterations = 2, time = 5)
@Measurement(iterations = 3, time = 5)
public class SimulationBenchmark {

  /** What is recorded. */
  @Param({"point", "healthy", "reinnervated"})
  public String muscle;

  private StudyPlan plan;
  private int site;

  /** For the harness, which calls {@link #draw} before anything else. */
  @SuppressWarnings("NullAway.Init")
  public SimulationBenchmark() {}

  /** Solves the needle and draws the sites. */
  @Setup(Level.Trial)
  public void draw() {
    StudyScenario scenario =
        switch (muscle) {
          case "healthy" -> StudyScenario.ofMuscle(SampleMuscleSettings.healthy());
          case "reinnervated" -> StudyScenario.ofMuscle(SampleMuscleSettings.reinnervated());
          default -> StudyScenario.defaults();
        };
    plan = scenario.withSites(8).withDurationS(10).draw(1);
    plan.simulate(0);
  }

  /** One site after the other. */
  @Benchmark
  public RecordingTruth site() {
    site = (site + 1) % plan.sites().size();
    return plan.simulate(site).truth();
  }
}
