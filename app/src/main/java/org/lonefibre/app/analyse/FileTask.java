package org.lonefibre.app.analyse;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ForkJoinTask;
import java.util.concurrent.RecursiveTask;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.recording.FileHash;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.signal.recording.Recording;

/**
 * Opens and hashes one file and analyses all that is declared of it, its sites in parallel. It
 * never fails: what goes wrong becomes a refusal.
 */
@SuppressWarnings("serial")
final class FileTask extends RecursiveTask<Map<FileTask.Job, Outcome>> {

  /**
   * A declared recording to be analysed.
   *
   * @param study number of its study, from 0
   * @param number its number within the study, from 0
   * @param declared what is declared
   * @param activation how the muscle was made to contract
   * @param settings those of its study
   */
  record Job(
      int study,
      int number,
      DeclaredRecording declared,
      Activation activation,
      AnalysisSettings settings) {}

  private final RecordingDoor door;
  private final Path path;
  private final List<Job> jobs;
  private final Progress progress;

  FileTask(RecordingDoor door, Path path, List<Job> jobs, Progress progress) {
    this.door = door;
    this.path = path;
    this.jobs = jobs;
    this.progress = progress;
  }

  @Override
  protected Map<Job, Outcome> compute() {
    String file = String.valueOf(path.getFileName());
    Map<Job, Outcome> outcomes = new LinkedHashMap<>();
    try {
      if (Files.isDirectory(path)) {
        throw new InputFault(
            file, "file", "a recording", "a folder", "name the recordings in it, one by one");
      }
      try (Recording recording = door.open(path)) {
        SitePlan plan = new SitePlan(door, file, FileHash.sha256(path));
        for (Job job : jobs) {
          outcomes.put(job, analyse(recording, plan, job, file));
          progress.step();
        }
      }
    } catch (IOException | RuntimeException | OutOfMemoryError | StackOverflowError e) {
      for (Job job : jobs) {
        outcomes.putIfAbsent(job, Outcome.refused(file, e));
      }
    }
    return outcomes;
  }

  private static Outcome analyse(Recording recording, SitePlan plan, Job job, String file) {
    try {
      List<SiteTask> tasks = new ArrayList<>();
      for (SiteRequest request : plan.listSites(recording, job.declared(), job.activation())) {
        tasks.add(new SiteTask(new SiteAnalyser(job.settings()), recording, request));
      }
      tasks.forEach(ForkJoinTask::fork);
      tasks.forEach(ForkJoinTask::quietlyJoin);
      List<RecordingResult> sites = new ArrayList<>();
      for (SiteTask task : tasks) {
        sites.add(task.result());
      }
      return new Outcome.Analysed(sites);
    } catch (IOException | RuntimeException | OutOfMemoryError | StackOverflowError e) {
      return Outcome.refused(file, e);
    }
  }
}
