package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.validation.campaign.EnoughCampaign.Condition;
import org.lonefibre.validation.campaign.EnoughCampaign.Row;
import org.lonefibre.validation.campaign.EnoughCampaign.Truth;

class EnoughCampaignTest {

  private static final int STUDIES = 10_000;

  /** Seed 1, as in docs/validation/enough.md. */
  @Tag("property")
  @Test
  void falseAlarmsStayWithinFivePercentAndMissesWithinTen() {
    for (Condition condition : EnoughCampaign.conditions()) {
      List<Row> rows = EnoughCampaign.run(condition, 1, STUDIES);
      for (Row row : rows) {
        assertThat(row.certainWrong()).as(condition.name() + ", " + row.test()).isZero();
        if (condition.truth() == Truth.HEALTHY) {
          assertThat(row.beyondPercent())
              .as(condition.name() + ", " + row.test())
              .isLessThanOrEqualTo(5);
        }
      }
      if (condition.truth() == Truth.RAISED_CENTRE) {
        assertThat(100 - rows.get(0).beyondPercent()).as(condition.name()).isLessThanOrEqualTo(10);
      }
      if (condition.truth() == Truth.RAISED_SINGLE) {
        assertThat(100 - rows.get(1).beyondPercent()).as(condition.name()).isLessThanOrEqualTo(10);
      }
      if (condition.truth() == Truth.RAISED_CENTRE || condition.truth() == Truth.RAISED_SINGLE) {
        assertThat(100 - rows.get(2).beyondPercent()).as(condition.name()).isLessThanOrEqualTo(10);
        assertThat(rows.get(2).signals()).isLessThan(20);
      }
    }
  }
}
