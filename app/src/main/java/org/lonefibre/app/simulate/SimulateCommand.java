package org.lonefibre.app.simulate;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ForkJoinPool;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.app.declaration.ScenarioFile;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulatedActivation;
import org.lonefibre.model.simulation.StudyScenario;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Makes recordings with known truth. */
@Command(
    name = "simulate",
    description = "Makes recordings with known truth: EDF+ and truth.json. Invented data.")
@SuppressWarnings("NullAway.Init")
public final class SimulateCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Option(names = "--out", required = true, paramLabel = "DIR", description = "Folder.")
  private Path out;

  @Option(names = "--seed", defaultValue = "1", paramLabel = "N", description = "Seed (1).")
  private long seed;

  @Option(
      names = "--preset",
      paramLabel = "MUSCLE",
      description =
          "All fibres from a sample muscle about the solved single-fibre needle, of our own making:"
              + " healthy, reinnervated, failing-transmission.")
  private @Nullable String preset;

  @Option(
      names = "--scenario",
      paramLabel = "FILE.yaml",
      description = "Values of the scenario by name; options go before it.")
  private @Nullable Path scenarioFile;

  @Option(names = "--sites", paramLabel = "N", description = "Sites (20).")
  private @Nullable Integer sites;

  @Option(names = "--duration-s", paramLabel = "S", description = "Length of a site (8).")
  private @Nullable Double durationS;

  @Option(names = "--sampling-rate-hz", paramLabel = "HZ", description = "Sampling rate (50000).")
  private @Nullable Double samplingRateHz;

  @Option(names = "--noise-uv", paramLabel = "UV", description = "Noise of the amplifier (8).")
  private @Nullable Double noiseUv;

  @Option(
      names = "--activation",
      paramLabel = "ACTIVATION",
      description = "voluntary or stimulated (voluntary).")
  private @Nullable SimulatedActivation activation;

  @Option(
      names = "--shapes",
      paramLabel = "FAMILY",
      description = "Family of shapes: ${COMPLETION-CANDIDATES} (CUBIC_POINT).")
  private @Nullable ShapeFamily shapes;

  @Override
  public Integer call() throws IOException {
    StudyScenario scenario = base();
    if (scenarioFile != null) {
      scenario = ScenarioFile.read(scenarioFile, scenario);
    }
    List<Path> files;
    try {
      StudyScenario wanted = optioned(scenario);
      refuseBeyond(wanted);
      files = SimulatedFiles.write(wanted.draw(seed), new Subject("SIM-" + seed, null), out);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "simulate",
          "options",
          "values within their ranges",
          String.valueOf(e.getMessage()),
          "correct the option");
    }
    spec.commandLine()
        .getOut()
        .println(files.size() + " recordings, truth.json and study.yaml in " + out);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  /** Says before it starts what would not fit into memory. */
  private static void refuseBeyond(StudyScenario scenario) throws InputFault {
    long neededBytes = scenario.neededBytes(ForkJoinPool.getCommonPoolParallelism() + 1);
    if (neededBytes <= freeBytes()) {
      return;
    }
    // What earlier work has left behind counts as taken until it is collected.
    System.gc();
    long freeBytes = freeBytes();
    if (neededBytes > freeBytes) {
      throw new InputFault(
          "simulate",
          "memory",
          "a scenario that needs at most " + megabytes(freeBytes) + " MB, which are free",
          "about "
              + megabytes(neededBytes)
              + " MB for "
              + scenario.sites()
              + " sites of "
              + number(scenario.durationS())
              + " s at "
              + number(scenario.samplingRateHz())
              + " Hz",
          "take fewer or shorter sites, or give Java more (LONEFIBRE_JAVA_OPTS=-Xmx8g)");
    }
  }

  private static long freeBytes() {
    Runtime runtime = Runtime.getRuntime();
    return runtime.maxMemory() - (runtime.totalMemory() - runtime.freeMemory());
  }

  private static long megabytes(long bytes) {
    return Math.round(bytes / 1e6);
  }

  private static String number(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  private StudyScenario base() throws InputFault {
    if (preset == null) {
      return StudyScenario.defaults();
    }
    return switch (preset) {
      case "healthy" -> StudyScenario.ofMuscle(SampleMuscleSettings.healthy());
      case "reinnervated" -> StudyScenario.ofMuscle(SampleMuscleSettings.reinnervated());
      case "failing-transmission" ->
          StudyScenario.ofMuscle(SampleMuscleSettings.failingTransmission());
      default ->
          throw new InputFault(
              "simulate",
              "--preset",
              "healthy, reinnervated or failing-transmission",
              preset,
              "choose one, or leave it out and write a scenario file");
    };
  }

  private StudyScenario optioned(StudyScenario scenario) {
    StudyScenario changed = scenario;
    changed = sites == null ? changed : changed.withSites(sites);
    changed = durationS == null ? changed : changed.withDurationS(durationS);
    changed = samplingRateHz == null ? changed : changed.withSamplingRateHz(samplingRateHz);
    changed = noiseUv == null ? changed : changed.withNoiseUv(noiseUv);
    changed = activation == null ? changed : changed.withActivation(activation);
    return shapes == null ? changed : changed.withShapes(shapes);
  }
}
