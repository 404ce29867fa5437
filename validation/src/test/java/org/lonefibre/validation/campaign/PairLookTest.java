package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.validation.campaign.PairLook.Company;

class PairLookTest {

  /** Three potentials, about as far from each other: 0.86 ms from the first, a composite. */
  @Test
  void aPairIsOfTheFibreThatArrivesWhereItsTriggerDoes() {
    List<PairLook> looks =
        PairLook.of(
            StudyScenario.defaults()
                .withShapes(ShapeFamily.SOLVED_CONCENTRIC_SMALL)
                .withExtraUnitsRatio(0)
                .withShares(0, 0, 0.5, 0)
                .withEndPlateDeviationUs(55)
                .withSites(1)
                .draw(1_300_002)
                .simulate(0),
            AnalysisSettings.defaultsFor("concentric-small"));

    assertThat(looks).extracting(PairLook::company).containsExactly(Company.HIDDEN, Company.NONE);
    assertThat(looks).extracting(PairLook::byFullGrade).containsExactly(false, true);
  }
}
