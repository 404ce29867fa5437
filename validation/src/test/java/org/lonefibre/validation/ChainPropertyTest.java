package org.lonefibre.validation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.signal.recording.Recording;

/** What must not change a jitter, seen over the whole chain on short simulated sites. */
@Tag("property")
class ChainPropertyTest {

  private static final StudyScenario SHORT =
      StudyScenario.defaults().withExtraUnitsRatio(0).withSites(1).withDurationS(4);

  private static final StudyScenario QUIET = SHORT.withEndPlateDeviationUs(8);

  @ParameterizedTest(name = "{0}, seed {4}")
  @CsvSource({
    "gain doubled, 2, 0, 0, 1",
    "gain doubled, 2, 0, 0, 2",
    "turned over, -1, 0, 0, 1",
    "turned over, -1, 0, 0, 2",
    "begun 137 samples later, 1, 137, 0, 1",
    "begun 137 samples later, 1, 137, 0, 2",
    "begun 137 samples later, 1, 137, 0, 3",
    "third channel, 1, 0, 2, 2"
  })
  void theSameSiteGivesTheSameJitter(
      String change, double factor, long skipped, int before, long seed) throws IOException {
    Recording site = SHORT.draw(seed).simulate(0);
    List<PairResult> expected = pairs(new ChangedRecording(site, 1, 0, 0));
    List<PairResult> found = pairs(new ChangedRecording(site, factor, skipped, before));
    assertThat(expected).as("the site has a pair").isNotEmpty();
    for (PairResult pair : expected) {
      assertThat(found).as(change).anySatisfy(one -> theSame(one, pair));
    }
  }

  private static void theSame(PairResult one, PairResult other) {
    assertThat(one.presentSweeps()).isEqualTo(other.presentSweeps());
    assertThat(one.blockedSweeps()).isEqualTo(other.blockedSweeps());
    Double jitterUs = other.jitterUs();
    if (jitterUs == null) {
      assertThat(one.jitterUs()).isNull();
    } else {
      assertThat(one.jitterUs()).isCloseTo(jitterUs, within(0.2));
    }
  }

  /**
   * The same pairs, at quiet end-plates so that noise counts; the trade's number, from which no
   * noise is taken out.
   */
  @Test
  void moreNoiseDoesNotLowerTheMeanJitter() throws IOException {
    double quietUs = 0;
    double noisyUs = 0;
    int matched = 0;
    for (long seed = 1; seed <= 8; seed++) {
      List<PairResult> noisy = pairs(QUIET.withNoiseUv(40), seed);
      for (PairResult low : pairs(QUIET.withNoiseUv(4), seed)) {
        for (PairResult high : noisy) {
          Double lowUs = low.jitterUs();
          Double highUs = high.jitterUs();
          if (lowUs != null && highUs != null && isTheSame(low, high)) {
            quietUs += lowUs;
            noisyUs += highUs;
            matched++;
          }
        }
      }
    }
    assertThat(matched).isGreaterThanOrEqualTo(4);
    assertThat(noisyUs / matched).isGreaterThanOrEqualTo(quietUs / matched);
  }

  private static boolean isTheSame(PairResult one, PairResult other) {
    Double oneUs = one.meanIntervalUs();
    Double otherUs = other.meanIntervalUs();
    return oneUs != null
        && otherUs != null
        && Math.abs(Math.abs(oneUs) - Math.abs(otherUs)) < 30
        && Math.abs(one.presentSweeps() - other.presentSweeps()) <= 1;
  }

  private static List<PairResult> pairs(StudyScenario scenario, long seed) throws IOException {
    return pairs(new ChangedRecording(scenario.draw(seed).simulate(0), 1, 0, 0));
  }

  private static List<PairResult> pairs(ChangedRecording recording) throws IOException {
    List<MotorUnitResult> units =
        new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
            .analyse(recording, SiteRequest.whole("site.edf", "", recording.needle(), "site"))
            .motorUnits();
    return Objects.requireNonNull(units).stream().flatMap(unit -> unit.pairs().stream()).toList();
  }
}
