package org.lonefibre.app.simulate;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.model.simulation.RecordingTruth;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.SimulationScenario;
import org.lonefibre.model.simulation.StimulationScenario;
import org.lonefibre.model.simulation.StimulusMarker;
import org.lonefibre.model.simulation.StudyPlan;

/** Writes the recordings of a simulated study, their truth, and a study file to analyse them. */
public final class SimulatedFiles {

  private SimulatedFiles() {}

  /**
   * Writes one EDF+ file a site, {@code truth.json} and {@code study.yaml}.
   *
   * @param subject the invented person, with a code
   * @return the recordings in order
   */
  public static List<Path> write(StudyPlan plan, Subject subject, Path folder) throws IOException {
    Files.createDirectories(folder);
    int sites = plan.sites().size();
    RecordingTruth[] truths = new RecordingTruth[sites];
    Path[] files = new Path[sites];
    try (Progress progress = Progress.begin("simulating", sites)) {
      IntStream.range(0, sites)
          .parallel()
          .forEach(
              site -> {
                try {
                  SimulatedRecording recording = plan.simulate(site);
                  files[site] = folder.resolve(recording.truth().file());
                  RecordingDoor.write(recording, String.valueOf(subject.code()), files[site]);
                  truths[site] = recording.truth();
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
                progress.step();
              });
    } catch (UncheckedIOException e) {
      throw e.getCause() == null ? new IOException(e) : e.getCause();
    }
    ObjectMapper mapper = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
    WholeFile.write(
        folder.resolve("truth.json"), mapper.writeValueAsBytes(plan.truth(List.of(truths))));
    WholeFile.write(
        folder.resolve("study.yaml"), study(plan, subject).getBytes(StandardCharsets.UTF_8));
    return List.of(files);
  }

  /** The study file. The needle is the one whose settings and limits apply, not what recorded. */
  private static String study(StudyPlan plan, Subject subject) {
    StringBuilder yaml = new StringBuilder("# Invented data: no real person.\n");
    yaml.append("subject: {code: ").append(subject.code());
    if (subject.ageYears() != null) {
      yaml.append(", ageYears: ").append(subject.ageYears());
    }
    yaml.append("}\nstudies:\n  - muscle: ").append(plan.muscle());
    yaml.append("\n    needle: single-fibre\n    activation: ");
    yaml.append(plan.activation().name().toLowerCase(Locale.ROOT)).append("\n    recordings:\n");
    for (SimulationScenario site : plan.sites()) {
      StimulationScenario stimulation = site.stimulation();
      yaml.append("      - {file: ").append(site.site()).append(".edf, channel: EMG");
      if (stimulation != null && stimulation.marker() == StimulusMarker.CHANNEL) {
        yaml.append(", stimulusChannel: Stimulus");
      }
      yaml.append("}\n");
    }
    return yaml.toString();
  }
}
