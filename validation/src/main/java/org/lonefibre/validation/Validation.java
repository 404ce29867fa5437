package org.lonefibre.validation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.validation.score.Score;
import org.lonefibre.validation.score.SiteScorer;

/**
 * Simulates studies under stated conditions, takes them through the chain, and scores the results.
 *
 * <ul>
 *   <li>Each score is a function of the condition, the seed and the number of studies alone.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class Validation {

  /**
   * A condition and its scenario.
   *
   * @param name what is varied
   * @param scenario the scenario
   */
  public record Condition(String name, StudyScenario scenario) {}

  /**
   * A condition and its score.
   *
   * @param name what is varied
   * @param score its score
   */
  public record Row(String name, Score score) {}

  private Validation() {}

  /** The conditions of the published table. */
  public static List<Condition> conditions() {
    StudyScenario usual = StudyScenario.defaults();
    List<Condition> conditions = new ArrayList<>();
    conditions.add(new Condition("one unit, 50 kHz", usual.withExtraUnitsRatio(0)));
    conditions.add(new Condition("usual: 1.5 units in the mean", usual));
    conditions.add(new Condition("two to three units", usual.withExtraUnitsRatio(1.5)));
    conditions.add(new Condition("noise 15 uV", usual.withNoiseUv(15)));
    conditions.add(new Condition("noise 30 uV", usual.withNoiseUv(30)));
    conditions.add(new Condition("20 kHz", usual.withSamplingRateHz(20_000)));
    conditions.add(new Condition("100 kHz", usual.withSamplingRateHz(100_000)));
    conditions.add(
        new Condition("half of the end-plates block", usual.withShares(0.3, 0.5, 0.1, 0.03)));
    conditions.add(new Condition("held out: other shapes, other delays", StudyScenario.heldOut()));
    conditions.add(
        new Condition(
            "shapes solved for the needle", usual.withShapes(ShapeFamily.SOLVED_SINGLE_FIBRE)));
    return conditions;
  }

  /** The scores of conditions, each over a number of studies. */
  public static List<Row> run(List<Condition> conditions, long firstSeed, int studies) {
    return conditions.stream()
        .map(condition -> new Row(condition.name(), score(condition, firstSeed, studies)))
        .toList();
  }

  private static Score score(Condition condition, long firstSeed, int studies) {
    Score sum = Score.NONE;
    for (long seed = firstSeed; seed < firstSeed + studies; seed++) {
      StudyPlan plan = condition.scenario().draw(seed);
      sum =
          sum.plus(
              IntStream.range(0, plan.sites().size())
                  .parallel()
                  .mapToObj(site -> site(plan.simulate(site)))
                  .reduce(Score.NONE, Score::plus));
    }
    return sum;
  }

  private static Score site(SimulatedRecording recording) {
    try {
      RecordingResult result =
          new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
              .analyse(
                  recording,
                  SiteRequest.whole(
                      recording.truth().file(), "", recording.channels().get(0), "site"));
      return SiteScorer.score(recording.truth(), result);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
