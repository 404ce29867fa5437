package org.lonefibre.app.analyse;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;
import org.lonefibre.analysis.chain.KeptChain;
import org.lonefibre.analysis.reference.LaboratoryLimits;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.StudyDeclaration;
import org.lonefibre.analysis.reference.StudyJudge;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.declaration.DeclaredStudy;
import org.lonefibre.app.declaration.SettingsChanges;
import org.lonefibre.app.declaration.SettingsInForce;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.report.document.ChainJson;

/**
 * Takes a declared examination through the chain: files in parallel over the cores, then each study
 * judged.
 *
 * <ul>
 *   <li>A file that several recordings share is opened and hashed once.
 *   <li>A file that cannot be read is refused; the others are analysed.
 *   <li>Results stand in the order of the declaration, whichever is ready first.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class ExaminationAnalyser {

  private static final String ANY_NEEDLE = "not given";

  private final RecordingDoor door;
  private final SettingsChanges changes;
  private final Producer producer;
  private final LaboratoryLimits laboratory;

  /**
   * @param door opens files
   * @param changes settings a person wants otherwise
   * @param producer the program, as documents name it
   */
  public ExaminationAnalyser(RecordingDoor door, SettingsChanges changes, Producer producer) {
    this(door, changes, producer, LaboratoryLimits.NONE);
  }

  /**
   * @param door opens files
   * @param changes settings a person wants otherwise
   * @param producer the program, as documents name it
   * @param laboratory what the laboratory adds to the published limits
   */
  public ExaminationAnalyser(
      RecordingDoor door, SettingsChanges changes, Producer producer, LaboratoryLimits laboratory) {
    this.laboratory = laboratory;
    this.door = door;
    this.changes = changes;
    this.producer = producer;
  }

  /**
   * Analyses an examination.
   *
   * @param createdAt UTC time, ISO 8601
   * @throws InputFault if the settings contradict themselves
   * @throws IOException if the test of the chain cannot be read
   */
  public AnalysedExamination analyse(DeclaredExamination declared, String createdAt)
      throws IOException {
    Path chainTest = declared.chainTest();
    KeptChain chain = chainTest == null ? null : ChainJson.read(chainTest);
    Map<String, SettingsInForce> byNeedle = new LinkedHashMap<>();
    List<String> sets = catalogue(SettingsInForce.of(null, changes)).listSets();
    for (DeclaredStudy study : declared.studies()) {
      String set = study.limits();
      if (set != null && !sets.contains(set)) {
        throw new InputFault(
            "limits", "", "a limit set", set, "name one of " + String.join(", ", sets));
      }
      if (!byNeedle.containsKey(needle(study))) {
        byNeedle.put(needle(study), SettingsInForce.of(study.needle(), changes));
      }
    }
    Map<FileTask.Job, Outcome> outcomes = run(listJobs(declared, byNeedle));
    List<Study> studies = new ArrayList<>();
    List<Refusal> refusals = new ArrayList<>();
    List<Throwable> failures = new ArrayList<>();
    ExitCode exitCode = ExitCode.DONE;
    for (int s = 0; s < declared.studies().size(); s++) {
      List<RecordingResult> results = new ArrayList<>();
      for (Map.Entry<FileTask.Job, Outcome> entry : outcomes.entrySet()) {
        if (entry.getKey().study() != s) {
          continue;
        }
        if (entry.getValue() instanceof Outcome.Analysed analysed) {
          results.addAll(analysed.sites());
        } else if (entry.getValue() instanceof Outcome.Refused refused) {
          refusals.add(refused.refusal());
          failures.add(refused.failure());
          exitCode = worse(exitCode, refused.exitCode());
        }
      }
      DeclaredStudy study = declared.studies().get(s);
      SettingsInForce settings = Objects.requireNonNull(byNeedle.get(needle(study)));
      studies.add(judged(declared, study, settings, results));
    }
    Examination examination =
        new Examination(
            Examination.SCHEMA,
            producer,
            createdAt,
            SettingsInForce.stamp(byNeedle),
            declared.subject(),
            declared.visit(),
            studies,
            refusals,
            chain);
    boolean nothing = studies.stream().allMatch(study -> study.recordings().isEmpty());
    return new AnalysedExamination(
        examination,
        failures,
        nothing && exitCode == ExitCode.SOME_REFUSED ? ExitCode.INPUT_AT_FAULT : exitCode);
  }

  private List<FileTask.Job> listJobs(
      DeclaredExamination declared, Map<String, SettingsInForce> byNeedle) {
    List<FileTask.Job> jobs = new ArrayList<>();
    for (int s = 0; s < declared.studies().size(); s++) {
      DeclaredStudy study = declared.studies().get(s);
      SettingsInForce settings = Objects.requireNonNull(byNeedle.get(needle(study)));
      int number = 0;
      for (DeclaredRecording recording : study.recordings()) {
        jobs.add(new FileTask.Job(s, number++, recording, activation(study), settings.analysis()));
      }
    }
    return jobs;
  }

  /** Outcomes in the order of the jobs. */
  private Map<FileTask.Job, Outcome> run(List<FileTask.Job> jobs) {
    Map<Path, List<FileTask.Job>> byFile = new LinkedHashMap<>();
    for (FileTask.Job job : jobs) {
      byFile
          .computeIfAbsent(
              job.declared().path().toAbsolutePath().normalize(), p -> new ArrayList<>())
          .add(job);
    }
    ForkJoinPool pool = new ForkJoinPool(Runtime.getRuntime().availableProcessors());
    Map<FileTask.Job, Outcome> unordered = new HashMap<>();
    try (Progress progress = Progress.begin("analysing", jobs.size())) {
      List<ForkJoinTask<Map<FileTask.Job, Outcome>>> tasks = new ArrayList<>();
      byFile.forEach((path, of) -> tasks.add(pool.submit(new FileTask(door, path, of, progress))));
      tasks.forEach(task -> unordered.putAll(task.join()));
    } finally {
      pool.shutdown();
    }
    Map<FileTask.Job, Outcome> outcomes = new LinkedHashMap<>();
    for (FileTask.Job job : jobs) {
      outcomes.put(job, Objects.requireNonNull(unordered.get(job)));
    }
    return outcomes;
  }

  private LimitCatalogue catalogue(SettingsInForce settings) throws InputFault {
    try {
      return LimitCatalogue.load(settings.limits(), laboratory);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "limits",
          "",
          "limits of the laboratory that go together",
          String.valueOf(e.getMessage()),
          "correct the files or confirmations");
    }
  }

  private Study judged(
      DeclaredExamination declared,
      DeclaredStudy study,
      SettingsInForce settings,
      List<RecordingResult> results)
      throws InputFault {
    StudyDeclaration declaration =
        new StudyDeclaration(
            study.muscle(),
            declared.subject().ageYears(),
            study.needle(),
            activation(study),
            study.activation() == null
                ? StudyDeclaration.Origin.ASSUMED
                : StudyDeclaration.Origin.DECLARED,
            study.limits(),
            settings.analysis().conditioning().highPassHz(),
            declared.visit().temperatureDegC());
    StudyJudge judge = new StudyJudge(catalogue(settings), settings.study());
    return new Study(
        study.muscle(),
        study.side(),
        activation(study),
        study.needle(),
        results,
        judge.summarise(declaration, results));
  }

  private static ExitCode worse(ExitCode so, ExitCode refusal) {
    return so == ExitCode.OUR_FAULT || refusal == ExitCode.OUR_FAULT
        ? ExitCode.OUR_FAULT
        : ExitCode.SOME_REFUSED;
  }

  private static String needle(DeclaredStudy study) {
    return study.needle() == null ? ANY_NEEDLE : study.needle();
  }

  private static Activation activation(DeclaredStudy study) {
    return study.activation() == null ? Activation.VOLUNTARY : study.activation();
  }
}
