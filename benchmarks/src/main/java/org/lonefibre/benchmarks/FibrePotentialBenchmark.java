package org.lonefibre.benchmarks;

import java.util.concurrent.TimeUnit;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.LeadTable;
import org.lonefibre.model.tissue.Tissue;
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
 * Potentials of single fibres a second, each at another distance, from a solved needle.
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
@Warmup(iterations = 2, time = 3)
@Measurement(iterations = 3, time = 3)
public class FibrePotentialBenchmark {

  private static final int DISTANCES = 97;

  /** Time between values. */
  @Param({"20", "5"})
  public double stepUs;

  private FibrePotentialSolver solver;
  private int next;

  /** For the harness, which calls {@link #solve} before anything else. */
  @SuppressWarnings("NullAway.Init")
  public FibrePotentialBenchmark() {}

  /** Solves the needle and lays its table. */
  @Setup(Level.Trial)
  public void solve() {
    solver =
        new FibrePotentialSolver(
            Tissue.defaults(),
            new LeadTable(
                new LeadFieldSolver()
                    .solve(Needles.builtIn("single-fibre"), LeadFieldSettings.defaults())),
            IntracellularPotential.defaults());
  }

  /** One potential. */
  @Benchmark
  public FibrePotential potential() {
    next = (next + 1) % DISTANCES;
    FibreGeometry fibre = FibreGeometry.defaults().withDistanceMm(0.05 + 0.01 * next);
    return solver.solve(fibre, stepUs, 0);
  }
}
