package org.lonefibre.validation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.validation.score.Score;
import org.lonefibre.validation.score.SiteScorer;

/**
 * Holds what the chain reaches today, of lone units, of the usual mix and of a hard study, so that
 * no change makes it worse unseen. The goal lies higher: docs/validation/first.md says by how much.
 */
@Tag("regression")
class ChainRegressionTest {

  @Test
  void aStudyOfLoneUnitsIsMeasuredAsWellAsBefore() {
    Score score = score(StudyScenario.defaults().withExtraUnitsRatio(0), 1);
    assertThat(score.eligiblePairs()).isGreaterThanOrEqualTo(15);
    assertThat(score.foundPercent()).isGreaterThanOrEqualTo(97);
    assertThat(score.rightPercent()).isGreaterThanOrEqualTo(95);
    assertThat(score.falseBlocks()).isZero();
    assertThat(score.blocksPercent()).isGreaterThanOrEqualTo(95);
    assertThat(score.inventedPairs()).isZero();
  }

  @Test
  void aStudyOfCollidingUnitsIsMeasuredAsWellAsBefore() {
    Score score = score(StudyScenario.defaults(), 11);
    assertThat(score.eligiblePairs()).isGreaterThanOrEqualTo(30);
    assertThat(score.foundPercent()).isGreaterThanOrEqualTo(97);
    assertThat(score.rightPercent()).isGreaterThanOrEqualTo(94);
    assertThat(score.falseBlocks()).isLessThanOrEqualTo(1);
    assertThat(score.blocksPercent()).isGreaterThanOrEqualTo(95);
    assertThat(score.inventedPairs()).isZero();
  }

  /** A unit that was found in two parts, or two that were taken for one, would cost pairs here. */
  @Test
  void unitsOfLikePotentialsAreToldApartAsWellAsBefore() {
    Score score = score(StudyScenario.heldOut(), 2);
    assertThat(score.foundPercent()).isGreaterThanOrEqualTo(90);
    assertThat(score.rightPercent()).isGreaterThanOrEqualTo(85);
    assertThat(score.falseBlocks()).isLessThanOrEqualTo(1);
    assertThat(score.inventedPairs()).isZero();
  }

  /** Spikes of another unit would be taken for discharges whose other potentials are blocked. */
  @Test
  void aForeignSpikeIsNoWitnessOfABlock() {
    Score score = score(StudyScenario.defaults(), 34);
    assertThat(score.falseBlocks()).isZero();
    assertThat(score.trueBlocks()).isGreaterThanOrEqualTo(20);
    assertThat(score.blocksPercent()).isEqualTo(100);
  }

  /** Where the trigger fails, the next potential is not taken for it and the last one blocked. */
  @Test
  void aFollowerIsNotTakenForATriggerThatFails() throws IOException {
    StudyScenario half =
        Validation.conditions().stream()
            .filter(condition -> condition.name().startsWith("half"))
            .findFirst()
            .orElseThrow()
            .scenario();
    SimulatedRecording site = half.draw(94).simulate(13);
    RecordingResult result =
        new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
            .analyse(
                site, SiteRequest.whole(site.truth().file(), "", site.channels().get(0), "site"));
    Score score = SiteScorer.score(site.truth(), result);
    assertThat(score.eligiblePairs()).isEqualTo(5);
    assertThat(score.foundPairs()).isEqualTo(5);
    assertThat(score.rightJitters()).isEqualTo(5);
    assertThat(score.falseBlocks()).isZero();
  }

  private static Score score(StudyScenario scenario, long seed) {
    return Validation.run(List.of(new Validation.Condition("one study", scenario)), seed, 1)
        .get(0)
        .score();
  }
}
