package org.lonefibre.app.simulate;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.model.simulation.RecordingTruth;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyPlan;

/** Writes the recordings of a simulated study and their truth. */
public final class SimulatedFiles {

  private SimulatedFiles() {}

  /** Writes one EDF+ file a site, and truth.json; returns the recordings in order. */
  public static List<Path> write(StudyPlan plan, String subject, Path folder) throws IOException {
    Files.createDirectories(folder);
    int sites = plan.sites().size();
    RecordingTruth[] truths = new RecordingTruth[sites];
    Path[] files = new Path[sites];
    List<IOException> failures = new ArrayList<>();
    try (Progress progress = Progress.begin("simulating", sites)) {
      IntStream.range(0, sites)
          .parallel()
          .forEach(
              site -> {
                try {
                  SimulatedRecording recording = plan.simulate(site);
                  files[site] = folder.resolve(recording.truth().file());
                  RecordingDoor.write(recording, subject, files[site]);
                  truths[site] = recording.truth();
                } catch (IOException e) {
                  synchronized (failures) {
                    failures.add(e);
                  }
                }
                progress.step();
              });
    }
    if (!failures.isEmpty()) {
      throw failures.get(0);
    }
    ObjectMapper mapper = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
    WholeFile.write(
        folder.resolve("truth.json"), mapper.writeValueAsBytes(plan.truth(List.of(truths))));
    return List.of(files);
  }
}
