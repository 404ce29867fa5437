package org.lonefibre.analysis.density;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class FibreDensityTest {

  /** scipy 1.17.1: stats.t.interval(0.95, 19, loc=mean, scale=stats.sem) of these 20 sites. */
  @Tag("crossCheck")
  @Test
  void theDensityIsTheMeanOverSitesWithTheIntervalOfAnIndependentLibrary() {
    FibreDensity density =
        FibreDensity.of(List.of(1, 1, 2, 1, 3, 1, 2, 1, 1, 2, 1, 1, 1, 2, 1, 4, 1, 1, 2, 1));
    assertThat(density.potentialsPerSite()).isEqualTo(1.5);
    FibreDensity.Interval interval = density.interval().orElseThrow();
    assertThat(interval.low()).isCloseTo(1.1128724336444078, within(1e-9));
    assertThat(interval.high()).isCloseTo(1.8871275663555922, within(1e-9));
    assertThat(density.notes()).singleElement().asString().contains("no limit is applied");
  }

  @Test
  void itIsNeverBelowOneAndFewOrSelectedSitesAreSaid() {
    FibreDensity few = FibreDensity.of(List.of(1, 1, 1, 2));
    assertThat(few.interval().orElseThrow().low()).isEqualTo(1);
    assertThat(few.notes()).anyMatch(n -> n.contains("4 sites"));
    assertThat(FibreDensity.of(List.of(2, 2, 3)).notes()).anyMatch(n -> n.contains("at random"));
    assertThat(FibreDensity.of(List.of(1)).interval()).isEmpty();
    assertThatIllegalArgumentException().isThrownBy(() -> FibreDensity.of(List.of()));
    assertThatIllegalArgumentException().isThrownBy(() -> FibreDensity.of(List.of(0)));
  }
}
