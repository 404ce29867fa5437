package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.hipparchus.stat.inference.AlternativeHypothesis;
import org.hipparchus.stat.inference.BinomialTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lonefibre.signal.random.RandomStream;

class IntervalCampaignTest {

  private static final int TRIALS = 500;

  /** Mean difference and SD of each law against an independent library. */
  @ParameterizedTest
  @EnumSource
  void lawHasTheJitterItStates(IntervalLaw law) {
    RandomStream random = RandomStream.of(5).child(law.name());
    DescriptiveStatistics values = new DescriptiveStatistics();
    DescriptiveStatistics differences = new DescriptiveStatistics();
    for (int i = 0; i < 200_000; i++) {
      double first = law.drawUs(random);
      double second = law.drawUs(random);
      values.addValue(first);
      differences.addValue(Math.abs(second - first));
    }
    double error = differences.getStandardDeviation() / Math.sqrt(differences.getN());
    assertThat(differences.getMean()).isCloseTo(law.jitterUs(), within(4 * error));
    assertThat(values.getStandardDeviation()).isCloseTo(20, within(0.4));
  }

  /** No cell is further from its goal than chance over some hundred trials explains. */
  @Tag("property")
  @Test
  void intervalsHold() {
    IntervalCampaign campaign = new IntervalCampaign();
    for (IntervalCell cell : IntervalCampaign.listCells()) {
      Coverage found = campaign.cover(cell, 3, TRIALS);
      int held = found.trials() - found.below() - found.above();
      double least = cell.law() == IntervalLaw.GAUSSIAN ? 0.94 : 0.92;
      double most = cell.law() == IntervalLaw.GAUSSIAN ? 0.96 : 0.97;
      BinomialTest test = new BinomialTest();
      assertThat(found.trials()).isEqualTo(TRIALS);
      assertThat(test.binomialTest(TRIALS, held, least, AlternativeHypothesis.LESS_THAN))
          .as(cell + " holds " + held)
          .isGreaterThan(1e-4);
      assertThat(test.binomialTest(TRIALS, held, most, AlternativeHypothesis.GREATER_THAN))
          .as(cell + " holds " + held)
          .isGreaterThan(1e-4);
    }
  }

  @Test
  void aTrialCanBeRepeated() {
    IntervalCampaign campaign = new IntervalCampaign();
    String once = campaign.replay(1, 3, 17);
    assertThat(new IntervalCampaign().replay(1, 3, 17)).isEqualTo(once);
    assertThat(campaign.replay(1, 3, 18)).isNotEqualTo(once);
    assertThatThrownBy(() -> campaign.replay(1, 100_000, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void tablesCountTheirGoals() {
    GoalTable table =
        new GoalTable(
            "T",
            List.of("a"),
            List.of(
                GoalRow.told(List.of("x")),
                GoalRow.within(List.of("y"), 1, 1, 2, "1 to 2"),
                GoalRow.within(List.of("z"), Double.NaN, 1, 2, "1 to 2")),
            "");
    assertThat(table.goals()).isEqualTo(2);
    assertThat(table.goalsMet()).isEqualTo(1);
  }
}
