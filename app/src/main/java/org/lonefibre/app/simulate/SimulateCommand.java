package org.lonefibre.app.simulate;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
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

  @Option(names = "--sites", defaultValue = "20", paramLabel = "N", description = "Sites (20).")
  private int sites;

  @Option(names = "--duration-s", defaultValue = "8", paramLabel = "S", description = "Length (8).")
  private double durationS;

  @Option(
      names = "--sampling-rate-hz",
      defaultValue = "50000",
      paramLabel = "HZ",
      description = "Rate (50000).")
  private double samplingRateHz;

  @Option(names = "--noise-uv", paramLabel = "UV", description = "Amplifier noise.")
  private double noiseUv = -1;

  @Option(
      names = "--activation",
      defaultValue = "voluntary",
      paramLabel = "A",
      description = "voluntary or stimulated.")
  private SimulatedActivation activation;

  @Option(
      names = "--shapes",
      defaultValue = "cubic_point",
      paramLabel = "F",
      description = "Family of shapes: ${COMPLETION-CANDIDATES}.")
  private ShapeFamily shapes;

  @Override
  public Integer call() throws IOException {
    StudyScenario scenario;
    try {
      scenario =
          StudyScenario.defaults()
              .withSites(sites)
              .withDurationS(durationS)
              .withSamplingRateHz(samplingRateHz)
              .withShapes(shapes)
              .withActivation(activation);
      scenario = noiseUv < 0 ? scenario : scenario.withNoiseUv(noiseUv);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "simulate",
          "options",
          "values within their ranges",
          String.valueOf(e.getMessage()),
          "mend the option");
    }
    List<Path> files = SimulatedFiles.write(scenario.draw(seed), "SIM-" + seed, out);
    spec.commandLine().getOut().println(files.size() + " recordings and truth.json in " + out);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }
}
