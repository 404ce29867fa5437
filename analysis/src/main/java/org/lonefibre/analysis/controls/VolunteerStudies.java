package org.lonefibre.analysis.controls;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.lonefibre.analysis.reference.MuscleNames;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.Study;

/**
 * Controls from automatic results of healthy volunteers.
 *
 * <ul>
 *   <li>What the program accepted counts, whatever a person decided later: who has seen a result
 *       chooses by it.
 *   <li>Results accepted by another version of the grading are left out, and so are those without
 *       subject code, muscle, needle or signals; each is named.
 *   <li>A subject counts once a muscle, needle and activation: the first examination. Later ones
 *       are left out and named.
 * </ul>
 *
 * @param controls the controls, in the order of the results
 * @param leftOut what was left out and why, a line each
 */
public record VolunteerStudies(List<Control> controls, List<String> leftOut) {

  /** The version of the grading that is wanted of the studies with a needle. */
  @FunctionalInterface
  public interface Wanted {

    /** The version, as {@link GradingVersion} says it. */
    String version(String needle) throws IOException;
  }

  private record Series(String subject, String muscle, String needle, Activation activation) {}

  /** Copies the lists. */
  public VolunteerStudies {
    controls = List.copyOf(controls);
    leftOut = List.copyOf(leftOut);
  }

  /**
   * The controls in some automatic results.
   *
   * @param results the results, the earliest first
   * @param wanted the version of the grading that must have accepted the signals
   * @throws IOException if that cannot be told
   */
  public static VolunteerStudies of(List<Examination> results, Wanted wanted) throws IOException {
    MuscleNames muscles = MuscleNames.load();
    List<Control> controls = new ArrayList<>();
    List<String> leftOut = new ArrayList<>();
    Set<Series> seen = new HashSet<>();
    for (Examination result : results) {
      String code = result.subject().code();
      String name = (code == null ? "subject without code" : code) + ", " + day(result);
      for (Study study : result.studies()) {
        String declared = study.muscle();
        String needle = study.needle();
        if (code == null || declared == null || needle == null) {
          leftOut.add(name + ": subject code, muscle or needle were not given");
          continue;
        }
        String muscle = muscles.findKey(declared).orElse(declared);
        String place = name + ", " + muscle;
        String grading = wanted.version(needle);
        String accepted = GradingVersion.of(result.producedBy(), result.settings(), needle);
        List<Double> jitters = jittersUs(study);
        if (!accepted.equals(grading)) {
          leftOut.add(place + ": accepted by grading " + accepted + ", not " + grading);
        } else if (jitters.isEmpty()) {
          leftOut.add(place + ": no signal was accepted");
        } else if (!seen.add(new Series(code, muscle, needle, study.activation()))) {
          leftOut.add(place + ": the subject counts with its first examination");
        } else {
          controls.add(
              new Control(
                  code,
                  result.subject().ageYears(),
                  muscle,
                  needle,
                  study.activation(),
                  grading,
                  jitters));
        }
      }
    }
    return new VolunteerStudies(controls, leftOut);
  }

  private static String day(Examination result) {
    String date = result.visit().date();
    return date == null ? result.createdAt() : date;
  }

  private static List<Double> jittersUs(Study study) {
    List<Double> jitters = new ArrayList<>();
    study.recordings().stream()
        .flatMap(recording -> recording.signals().stream())
        .filter(signal -> signal.status() == PairStatus.MEASURED)
        .map(SignalMeasures::jitterUs)
        .forEach(
            jitterUs -> {
              if (jitterUs != null) {
                jitters.add(jitterUs);
              }
            });
    return jitters;
  }
}
