package org.lonefibre.validation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.function.LongFunction;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.validation.cases.Pitfall;
import org.lonefibre.validation.score.PitfallScore;

/**
 * How often the chain sees the known pitfalls, and how often it sees them where they are not.
 *
 * <ul>
 *   <li>Each score is a function of the first number and of how many sites alone.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class PitfallValidation {

  private static final StudyScenario HEALTHY =
      StudyScenario.defaults().withShares(0, 0, 0, 0).withSites(20);

  private PitfallValidation() {}

  /**
   * The score of one pitfall.
   *
   * @param first number of the first site
   * @param sites how many with it, and how many without it
   * @param usual what {@link #usualSites} gave, of the same activation
   */
  public static PitfallScore score(
      Pitfall pitfall, long first, int sites, List<RecordingResult> usual) {
    return new PitfallScore(
        pitfall.code(),
        sites,
        raised(pitfall.code(), results(pitfall::simulateWith, first, sites)),
        sites,
        raised(pitfall.code(), results(pitfall::simulateWithout, first, sites)),
        usual.size(),
        raised(pitfall.code(), usual));
  }

  /** Healthy voluntary sites, with 1.5 units in the mean, some of which collide. */
  public static List<RecordingResult> usualSites(long seed, int studies) {
    return LongStream.range(seed, seed + studies)
        .mapToObj(HEALTHY::draw)
        .flatMap(PitfallValidation::results)
        .toList();
  }

  private static java.util.stream.Stream<RecordingResult> results(StudyPlan plan) {
    return IntStream.range(0, plan.sites().size())
        .parallel()
        .mapToObj(site -> analyse(plan.simulate(site)))
        .toList()
        .stream();
  }

  private static List<RecordingResult> results(
      LongFunction<SimulatedRecording> site, long first, int sites) {
    return LongStream.range(first, first + sites)
        .parallel()
        .mapToObj(number -> analyse(site.apply(number)))
        .toList();
  }

  private static int raised(FindingCode code, List<RecordingResult> results) {
    return (int) results.stream().filter(result -> PitfallScore.isRaised(code, result)).count();
  }

  /** The result of a simulated site, needle and stimulus channel as it has them. */
  public static RecordingResult analyse(SimulatedRecording recording) {
    SiteRequest request =
        SiteRequest.whole(recording.truth().file(), "", recording.channels().get(0), "site");
    if (recording.truth().stimulation() != null) {
      request =
          new SiteRequest(
              request.file(),
              "",
              request.channel(),
              recording.channels().get(1),
              List.of(),
              request.site(),
              request.startS(),
              request.endS(),
              Activation.STIMULATED);
    }
    try {
      return new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
          .analyse(recording, request);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
