package org.lonefibre.benchmarks;

import java.util.concurrent.TimeUnit;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Solving needles, in seconds.
 *
 * <ul>
 *   <li>Thread rule: for one thread; the solver works on all processors.
 * </ul>
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(
    value = 1,
    jvmArgs = {"-Xmx2g"})
@Warmup(iterations = 2, time = 4)
@Measurement(iterations = 3, time = 4)
public class NeedleBenchmark {

  /** For the harness. */
  public NeedleBenchmark() {}

  /** A built-in needle. */
  @State(Scope.Benchmark)
  public static class BuiltIn {

    /** Its name. */
    @Param({"single-fibre", "concentric-small", "concentric-standard", "monopolar"})
    @SuppressWarnings("NullAway.Init")
    public String needle;

    /** Its angle. */
    @Param({"0", "45"})
    public double angleDeg;

    /** For the harness. */
    public BuiltIn() {}
  }

  /** One mesh of the single-fibre needle. */
  @State(Scope.Benchmark)
  public static class OneMesh {

    /** About 1,000, 2,000, 4,000 and 6,000 triangles. */
    @Param({"0.645", "0.91", "1.29", "1.58"})
    public double finenessRatio;

    /** For the harness. */
    public OneMesh() {}
  }

  /** To 1 %, nothing kept. */
  @Benchmark
  public SolvedNeedle solving(BuiltIn of) {
    return new LeadFieldSolver()
        .solve(Needles.builtIn(of.needle), LeadFieldSettings.defaults().withAngleDeg(of.angleDeg));
  }

  /** On one mesh, ideal metal, mirror symmetry. */
  @Benchmark
  public SolvedNeedle oneMesh(OneMesh of) {
    return new LeadFieldSolver()
        .solveOn(of.finenessRatio, Needles.builtIn("single-fibre"), LeadFieldSettings.defaults());
  }
}
