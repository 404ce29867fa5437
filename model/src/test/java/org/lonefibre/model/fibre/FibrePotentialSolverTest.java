package org.lonefibre.model.fibre;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.model.tissue.LeadField;
import org.lonefibre.model.tissue.Tissue;

final class FibrePotentialSolverTest {

  private static final Tissue TISSUE = Tissue.defaults();
  private static final LeadField POINT = LeadField.point(TISSUE);

  private static FibrePotentialSolver solver(IntracellularPotential wave) {
    return new FibrePotentialSolver(TISSUE, POINT, wave);
  }

  /**
   * Maximum minus minimum and positive to negative peak, point electrode, infinite fibre: computed
   * independently by the project's reference calculation (model_checks_computed.csv), L = 1 per mm,
   * 25 um.
   */
  @ParameterizedTest
  @CsvSource({"0.03,441.9,905", "0.05,349.0,915", "0.1,230.7,942.5", "0.2,130.4,1005"})
  @Tag("crossCheck")
  void theClassicalWaveGivesTheReferenceAmplitudeAndDuration(
      double distanceMm, double amplitudeUv, double peakToPeakUs) {
    FibrePotential potential =
        solver(IntracellularPotential.cubic(1))
            .solve(
                FibreGeometry.defaults().withDiameterUm(25).withDistanceMm(distanceMm), 1, 0.001);
    assertThat(potential.amplitudeUv()).isCloseTo(amplitudeUv, within(0.1));
    double[] values = potential.copyUv();
    int high = 0;
    int low = 0;
    for (int i = 0; i < values.length; i++) {
      high = values[i] > values[high] ? i : high;
      low = values[i] < values[low] ? i : low;
    }
    assertThat((low - high) * potential.stepUs()).isCloseTo(peakToPeakUs, within(3.0));
  }

  /** The same integral by brute force over the fibre, second family, near an end-plate. */
  @Test
  @Tag("crossCheck")
  void theOnePassConvolutionEqualsTheDirectSum() {
    IntracellularPotential wave = IntracellularPotential.quarticWithAfterpotential();
    FibreGeometry geometry = new FibreGeometry(55, 0.2, 3, 8, 6);
    FibrePotential potential = solver(wave).solve(geometry, 1, 0);
    double radiusMm = 0.0275;
    double strength = Math.PI * radiusMm * radiusMm * TISSUE.insideSPerM();
    double stepMm = 0.0005;
    for (double timeUs : new double[] {300, 700, 900, 1100, 2500}) {
      double front = geometry.velocityMPerS() * timeUs * 1e-3;
      double sum = 0;
      for (int side = -1; side <= 1; side += 2) {
        double length = side < 0 ? geometry.towardsTendonMm() : geometry.awayTendonMm();
        for (int i = 0; i < Math.round(length / stepMm); i++) {
          double x = (i + 0.5) * stepMm;
          double slope =
              (wave.potentialMv(front - x + 1e-4) - wave.potentialMv(front - x - 1e-4)) / 2e-4;
          sum += slope * POINT.slopeOhmPerMm(0.2, x + side * 3.0) * stepMm;
        }
      }
      int index = (int) Math.round((timeUs - potential.startUs()) / potential.stepUs());
      assertThat(potential.copyUv()[index]).isCloseTo(strength * sum, within(0.5));
    }
  }

  /** L = 2 per mm, 55 um (model_checks_computed.csv): spectrum peak in Hz. */
  @ParameterizedTest
  @CsvSource({"0.05,903", "0.1,817", "0.3,616"})
  @Tag("crossCheck")
  void theSpectrumPeaksWhereTheReferenceSays(double distanceMm, double peakHz) {
    FibrePotential potential =
        solver(IntracellularPotential.cubic(2))
            .solve(FibreGeometry.defaults().withDistanceMm(distanceMm), 1, 0.01);
    double[] values = potential.copyUv();
    double best = 0;
    double bestHz = 0;
    for (double hz = 300; hz < 1500; hz += 4) {
      double real = 0;
      double imaginary = 0;
      for (int i = 0; i < values.length; i++) {
        real += values[i] * Math.cos(2 * Math.PI * hz * i * 1e-6);
        imaginary += values[i] * Math.sin(2 * Math.PI * hz * i * 1e-6);
      }
      if (Math.hypot(real, imaginary) > best) {
        best = Math.hypot(real, imaginary);
        bestHz = hz;
      }
    }
    assertThat(bestHz).isCloseTo(peakHz, within(20.0));
  }

  @Test
  @Tag("analytic")
  void theSteepestPointLiesWhereTheWavePassesTheElectrode() {
    FibreGeometry geometry = FibreGeometry.defaults();
    FibrePotential potential = solver(IntracellularPotential.defaults()).solve(geometry, 1, 0.02);
    double passingUs = geometry.endPlateDistanceMm() / geometry.velocityMPerS() * 1e3;
    assertThat(potential.steepestUs()).isBetween(passingUs, passingUs + 300);
    assertThat(potential.riseTimeUs()).isBetween(100.0, 300.0);
  }

  @Test
  @Tag("property")
  void aWishedAmplitudeIsMet() {
    FibrePotentialSolver solver = solver(IntracellularPotential.defaults());
    for (double wishedUv : new double[] {60, 400, 2500}) {
      FibreGeometry geometry = solver.atAmplitude(FibreGeometry.defaults(), wishedUv);
      assertThat(solver.solve(geometry, 1, 0.02).amplitudeUv() / wishedUv)
          .isCloseTo(1, within(0.02));
    }
  }

  @Test
  @Tag("property")
  void aFartherFibreIsSmallerAndSlower() {
    FibrePotentialSolver solver = solver(IntracellularPotential.defaults());
    FibrePotential near = solver.solve(FibreGeometry.defaults().withDistanceMm(0.1), 1, 0.02);
    FibrePotential far = solver.solve(FibreGeometry.defaults().withDistanceMm(0.3), 1, 0.02);
    assertThat(far.amplitudeUv()).isLessThan(near.amplitudeUv());
    assertThat(far.riseTimeUs()).isGreaterThan(near.riseTimeUs());
  }

  @Test
  @Tag("contract")
  void whatNoMuscleHoldsIsRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> FibreGeometry.defaults().withDiameterUm(500))
        .withMessageContaining("diameter")
        .withMessageContaining("um");
  }
}
