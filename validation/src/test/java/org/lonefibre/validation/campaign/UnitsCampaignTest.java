package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.signal.random.RandomStream;

@Tag("regression")
class UnitsCampaignTest {

  /** A lone unit is found whole, without swaps or blocks, and a trial can be given again. */
  @Test
  void aLoneUnitIsNoTrouble() {
    UnitsCampaign campaign = new UnitsCampaign();
    String once = campaign.replay(1, 0, 1);
    assertThat(once).contains("fibres=2, found=2").contains("swapped=0").contains("falseBlocks=0");
    assertThat(campaign.replay(1, 0, 1)).isEqualTo(once);
  }

  /** The hard sites are as hard as they say. */
  @Test
  void oneUnitFallsSilentWhereItShould() {
    UnitsSite pausing =
        UnitsSite.listAll().stream().filter(site -> site.pauses()).findFirst().orElseThrow();
    SimulatedRecording recording = pausing.simulate(RandomStream.of(3));
    assertThat(recording.truth().motorUnits()).hasSize(3);
    assertThat(recording.truth().motorUnits().get(1).dischargeTimesS())
        .isNotEmpty()
        .noneMatch(t -> t > 3.6 && t < 4.8)
        .allMatch(t -> t > 1.5 && t < 7.3);
  }
}
