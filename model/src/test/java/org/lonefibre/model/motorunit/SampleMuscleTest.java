package org.lonefibre.model.motorunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.fibre.Cable;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.fibre.NeedleResponse;
import org.lonefibre.model.fibre.Pickup;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.NeedleLead;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

final class SampleMuscleTest {

  private static SolvedNeedle needle;
  private static SampleMuscle healthy;

  @BeforeAll
  static void solve() {
    needle =
        new LeadFieldSolver().solve(Needles.builtIn("single-fibre"), LeadFieldSettings.defaults());
    healthy =
        new SampleMuscle(
            SampleMuscleSettings.healthy(),
            needle,
            Tissue.defaults(),
            IntracellularPotential.defaults());
  }

  private static PlacedFibre placed(double outMm, double sideMm) {
    return new PlacedFibre(
        outMm,
        sideMm,
        FibreGeometry.defaults().withDistanceMm(PlacedFibre.distanceMm(outMm, sideMm)));
  }

  @Test
  @Tag("crossCheck")
  void aFibreStraightBeforeTheCoreGivesThePotentialOfTheLeadItself() {
    for (double distanceMm : new double[] {0.06, 0.1, 0.23, 0.5, 1.3}) {
      FibrePotential expected =
          new FibrePotentialSolver(
                  Tissue.defaults(),
                  new NeedleLead(needle, 0, NeedleLead.Part.REAL),
                  IntracellularPotential.defaults())
              .solve(FibreGeometry.defaults().withDistanceMm(distanceMm), 10, 0.01);
      double found = healthy.potential(placed(distanceMm, 0)).amplitudeUv();
      assertThat(found / expected.amplitudeUv()).as(distanceMm + " mm").isCloseTo(1, within(0.04));
    }
  }

  @Test
  @Tag("property")
  void fibresHaveTheDensityTheDiametersAndTheEndPlatesOfTheSettings() {
    List<PlacedFibre> all = new ArrayList<>();
    for (int u = 0; u < 60; u++) {
      all.addAll(healthy.draw(RandomStream.of(4).child(u)));
    }
    SampleMuscleSettings settings = SampleMuscleSettings.healthy();
    assertThat(all).hasSize(60 * settings.fibresPerUnit());
    double sum = 0;
    double squares = 0;
    double endPlates = 0;
    int near = 0;
    for (PlacedFibre fibre : all) {
      sum += fibre.geometry().diameterUm();
      squares += Math.pow(fibre.geometry().diameterUm() - settings.diameterUm(), 2);
      endPlates +=
          Math.pow(fibre.geometry().endPlateDistanceMm() - settings.endPlateDistanceMm(), 2);
      near += fibre.distanceMm() < 1 ? 1 : 0;
    }
    assertThat(sum / all.size()).isCloseTo(settings.diameterUm(), within(0.3));
    assertThat(Math.sqrt(squares / all.size()))
        .isCloseTo(settings.diameterDeviationUm(), within(0.3));
    assertThat(Math.sqrt(endPlates / all.size()))
        .isCloseTo(settings.endPlateDeviationMm(), within(0.05));
    // The mean overlap of two discs, one's middle anywhere in the other, near that middle: the
    // needle is within the territory, so fibres within 1 mm have nearly full density.
    double full = settings.fibresPerMm2() * Math.PI;
    assertThat(near / 60.0).isBetween(0.75 * full, 1.02 * full);
  }

  @Test
  @Tag("property")
  void noFibreLeftPassesThroughTheNeedle() {
    assertThat(healthy.isClear(placed(-0.25, 0))).isFalse();
    assertThat(healthy.isClear(placed(0.02, 0))).isFalse();
    assertThat(healthy.isClear(placed(0.1, 0))).isTrue();
    assertThat(healthy.isClear(placed(-0.6, 0))).isTrue();
  }

  @Test
  @Tag("property")
  void whatAFibreThatMattersCannotExceedIsNotExceeded() {
    int near = 0;
    for (PlacedFibre fibre : healthy.unit(RandomStream.of(9))) {
      double amplitudeUv = healthy.potential(fibre).amplitudeUv();
      if (amplitudeUv > 10) {
        near++;
        assertThat(amplitudeUv).isLessThan(healthy.mostUv(fibre));
      }
    }
    assertThat(near).isGreaterThan(5);
  }

  @Test
  @Tag("property")
  void sharesOfSpikesSumToOneAndFewerFibresCountIfMoreIsAskedOfThem() {
    SpikeCount tenth = healthy.spikes(0.1, 200, 500, 40, RandomStream.of(1));
    SpikeCount half = healthy.spikes(0.5, 200, 500, 40, RandomStream.of(1));
    assertThat(tenth.spikes()).isEqualTo(40);
    assertThat(tenth.shares().stream().mapToDouble(s -> s).sum()).isCloseTo(1, within(1e-9));
    assertThat(half.shares().get(0)).isGreaterThanOrEqualTo(tenth.shares().get(0));
    assertThat(tenth.fibreDensityRatio()).isBetween(1.0, 2.2);
    SpikeCount clustered =
        healthy
            .with(SampleMuscleSettings.reinnervated())
            .spikes(0.1, 200, 500, 20, RandomStream.of(1));
    assertThat(clustered.fibreDensityRatio()).isGreaterThan(1.5 * tenth.fibreDensityRatio());
  }

  @Test
  @Tag("property")
  void potentialsThatFallTogetherAreCountedOnceAndSlowOnesNotAtAll() {
    double[] sum = new double[900];
    fall(sum, 100, 15, 400);
    fall(sum, 300, 15, 250);
    fall(sum, 500, 15, 150);
    fall(sum, 700, 45, 900);
    assertThat(FibreDensity.potentials(sum)).isEqualTo(2);
  }

  /** A slow rise over 80 steps, then a fall over some. */
  private static void fall(double[] sum, int from, int steps, double heightUv) {
    for (int i = 0; i < 80; i++) {
      sum[from + i] += heightUv * i / 80;
    }
    for (int i = 0; i < steps; i++) {
      sum[from + 80 + i] += heightUv * (steps - i) / steps;
    }
  }

  @Test
  @Tag("property")
  void aBackgroundFallsWithTheFilterAndTheLowestHighPassBringsItToItsTarget() {
    MuscleBackground background =
        healthy.background(
            0.7,
            0.4,
            2,
            NeedleResponse.flat(needle),
            new Pickup(Cable.defaults(), 0),
            RandomStream.of(3));
    double open = background.rmsUv(0);
    assertThat(background.rmsUv(500)).isLessThan(open);
    assertThat(background.withThermalUv(500)).isGreaterThan(background.rmsUv(500));
    assertThat(background.lowestHighPassHz(2 * open)).hasValue(0);
    double cutHz = background.lowestHighPassHz(open / 2).orElseThrow();
    assertThat(background.rmsUv(cutHz)).isCloseTo(open / 2, within(0.01 * open));
    assertThat(background.lowestHighPassHz(open / 1e6)).isEmpty();
  }

  @Test
  @Tag("analytic")
  void theHighPassHasItsGainAtItsCutOff() {
    double stepUs = 10;
    double[] wave = new double[40_000];
    for (int i = 0; i < wave.length; i++) {
      wave[i] = Math.sin(2 * Math.PI * 500 * i * stepUs * 1e-6);
    }
    double[] found = new OnePole(500, stepUs).filtered(wave);
    double high = 0;
    for (int i = 20_000; i < found.length; i++) {
      high = Math.max(high, found[i]);
    }
    assertThat(high).isCloseTo(Math.sqrt(0.5), within(0.002));
  }

  @Test
  @Tag("contract")
  void impossibleMusclesAndQuestionsAreRefusedByName() {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () -> new SampleMuscleSettings(3.5, 209, 0, 0.1, 0.055, 8, 20, 1.5, 18, 0, 6, 8, 12))
        .withMessage("diameter must be 20.0 to 90.0 um, found 0.055");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> healthy.spikes(10, 200, 500, 5, RandomStream.of(1)))
        .withMessageContaining("share of the steep phase must be 0.01 to 0.9");
  }
}
