package org.lonefibre.model.motorunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.signal.random.RandomStream;

final class MotorUnitTest {

  private static FibreScenario fibre(String id) {
    return FibreScenario.of(id, FibreGeometry.defaults(), 500, EndPlateSettings.gaussian(20));
  }

  private static MotorUnitScenario unit(FiringSettings firing, FibreScenario... fibres) {
    return MotorUnitScenario.of("U", firing, List.of(fibres));
  }

  @Test
  @Tag("property")
  void firingHasItsRateItsVariationAndItsRefractoryTime() {
    FiringSettings firing =
        FiringSettings.defaults().withRateHz(12).withVariationRatio(0.2).withDriftRatio(0);
    UnitActivity activity =
        new MotorUnit(unit(firing, fibre("F"))).fire(0, 500, RandomStream.of(3));
    int count = activity.discharges();
    double mean = (activity.dischargeTimeS(count - 1) - activity.dischargeTimeS(0)) / (count - 1);
    double squares = 0;
    for (int i = 1; i < count; i++) {
      double interval = activity.dischargeTimeS(i) - activity.dischargeTimeS(i - 1);
      assertThat(interval).isGreaterThanOrEqualTo(0.025);
      squares += (interval - mean) * (interval - mean);
    }
    assertThat(mean).isCloseTo(1.0 / 12, within(0.001));
    assertThat(Math.sqrt(squares / count) / mean).isCloseTo(0.2, within(0.01));
  }

  @Test
  @Tag("property")
  void pausesStartAndStopAreKept() {
    FiringSettings firing =
        FiringSettings.defaults().withinS(1, 8).withPauses(List.of(new FiringSettings.Pause(3, 5)));
    UnitActivity activity = new MotorUnit(unit(firing, fibre("F"))).fire(0, 10, RandomStream.of(3));
    assertThat(activity.discharges()).isBetween(40, 65);
    for (int i = 0; i < activity.discharges(); i++) {
      double time = activity.dischargeTimeS(i);
      assertThat(time).isBetween(1.0, 8.0);
      assertThat(time < 3 || time > 5).isTrue();
    }
  }

  @Test
  @Tag("property")
  void anotherFibreChangesNothingForTheFirst() {
    UnitActivity one =
        new MotorUnit(unit(FiringSettings.defaults(), fibre("A"))).fire(0, 5, RandomStream.of(8));
    UnitActivity two =
        new MotorUnit(unit(FiringSettings.defaults(), fibre("B"), fibre("A")))
            .fire(0, 5, RandomStream.of(8));
    for (int i = 0; i < one.discharges(); i++) {
      assertThat(two.arrivalTimeS(1, i)).isEqualTo(one.arrivalTimeS(0, i));
    }
  }

  @Test
  @Tag("property")
  void fibresOfOneEndPlateMoveAndVanishTogether() {
    FibreScenario parent =
        fibre("A").withEndPlate(EndPlateSettings.gaussian(20).withBlockingProbability(0.3));
    UnitActivity activity =
        new MotorUnit(unit(FiringSettings.defaults(), parent, fibre("B").withEndPlateId("A")))
            .fire(0, 20, RandomStream.of(8));
    for (int i = 0; i < activity.discharges(); i++) {
      assertThat(activity.present(1, i)).isEqualTo(activity.present(0, i));
      if (activity.present(0, i)) {
        assertThat(activity.arrivalTimeS(1, i)).isEqualTo(activity.arrivalTimeS(0, i));
      }
    }
  }

  @Test
  @Tag("property")
  void aBlockedBranchTakesAllItsFibresAndNoOther() {
    MotorUnitScenario scenario =
        unit(FiringSettings.defaults(), fibre("A"))
            .withBranches(
                List.of(new AxonBranch("twig", 0.4, 0)),
                List.of(
                    fibre("A"), fibre("B").withBranchId("twig"), fibre("C").withBranchId("twig")));
    UnitActivity activity = new MotorUnit(scenario).fire(0, 20, RandomStream.of(8));
    int missing = 0;
    for (int i = 0; i < activity.discharges(); i++) {
      assertThat(activity.present(0, i)).isTrue();
      assertThat(activity.present(1, i)).isEqualTo(activity.present(2, i));
      missing += activity.present(1, i) ? 0 : 1;
    }
    assertThat(missing).isPositive();
  }

  @Test
  @Tag("contract")
  void anUnknownBranchIsRefusedByName() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> unit(FiringSettings.defaults(), fibre("A").withBranchId("none")))
        .withMessageContaining("unknown branch none");
  }
}
