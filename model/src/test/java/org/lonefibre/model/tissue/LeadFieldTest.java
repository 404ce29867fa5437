package org.lonefibre.model.tissue;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class LeadFieldTest {

  private static final Tissue TISSUE = Tissue.defaults();

  /** 1 / (4 pi s_across sqrt(K rho^2 + z^2)) for 0.063 and 0.33 S/m, in kilo-ohm. */
  @Test
  @Tag("analytic")
  void aPointInAnisotropicTissueHasItsClosedForm() {
    PointElectrode point = new PointElectrode(TISSUE);
    assertThat(point.leadOhm(0.1, 0)).isCloseTo(5519.03, within(0.01));
    assertThat(point.leadOhm(0.3, 1)).isCloseTo(1041.31, within(0.01));
  }

  @Test
  @Tag("analytic")
  void theSlopeIsTheDerivativeOfTheLead() {
    LeadField[] fields = {new PointElectrode(TISSUE), new SurfaceElectrode(TISSUE, 0.3, 0.08)};
    for (LeadField field : fields) {
      for (double along : new double[] {-2, -0.1, 0, 0.05, 1}) {
        double step = 1e-5;
        double numerical =
            (field.leadOhm(0.2, along + step) - field.leadOhm(0.2, along - step)) / (2 * step);
        assertThat(field.slopeOhmPerMm(0.2, along)).isCloseTo(numerical, within(1e-2));
      }
    }
  }

  /** Side-port needle solved with boundary elements (needle_lead_field_computed.csv), kilo-ohm. */
  @ParameterizedTest
  @CsvSource({"0.1,5.380", "0.2,1.897", "0.3,0.996", "0.5,0.4335", "1,0.1371", "2,0.0418"})
  @Tag("crossCheck")
  void aReferenceBehindFollowsTheSolvedNeedle(double acrossMm, double leadKiloohm) {
    PointElectrode point = new PointElectrode(TISSUE);
    assertThat(new ReferencedElectrode(point, point, 0.35).leadOhm(acrossMm, 0))
        .isCloseTo(1000 * leadKiloohm, withinPercentage(25));
  }

  /** Mean of the point's lead over 160,000 places of the ellipse. */
  @Test
  @Tag("crossCheck")
  void aSurfaceIsTheMeanOfItsPoints() {
    PointElectrode point = new PointElectrode(TISSUE);
    SurfaceElectrode surface = new SurfaceElectrode(TISSUE, 0.3, 0.08);
    double sum = 0;
    int count = 0;
    for (int i = 0; i < 400; i++) {
      for (int j = 0; j < 400; j++) {
        double along = (i + 0.5) / 200 - 1;
        double side = (j + 0.5) / 200 - 1;
        if (along * along + side * side < 1) {
          sum += point.leadOhm(Math.hypot(0.15, side * 0.04), along * 0.15);
          count++;
        }
      }
    }
    assertThat(surface.leadOhm(0.15, 0) / (sum / count)).isCloseTo(1, within(0.005));
    assertThat(surface.leadOhm(5, 0) / point.leadOhm(5, 0)).isCloseTo(1, within(0.001));
  }

  @Test
  @Tag("contract")
  void tissueThatDoesNotConductIsRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Tissue(0, 0.33, 1.01))
        .withMessageContaining("across")
        .withMessageContaining("S/m");
  }
}
