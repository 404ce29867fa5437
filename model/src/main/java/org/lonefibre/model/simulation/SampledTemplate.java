package org.lonefibre.model.simulation;

import org.lonefibre.model.fibre.FibrePotential;

/**
 * A distant fibre's potential at the sampling rate, at {@value #PHASES} places between samples: to
 * be added many times. The nearest place is taken, 2.5 us off at most at 50 kHz.
 */
final class SampledTemplate {

  private static final int PHASES = 4;

  private final double[][] phases = new double[PHASES][];
  private final double sampleUs;

  /** Samples before the reference. */
  private final int before;

  /**
   * @param referenceUs the time from the end-plate's firing that lies at the time it is added at
   */
  SampledTemplate(FibrePotential potential, double referenceUs, double sampleUs, double lowPassHz) {
    this.sampleUs = sampleUs;
    Template template =
        Template.of(
            potential.copyUv(), potential.stepUs(), referenceUs - potential.startUs(), lowPassHz);
    before = (int) Math.ceil(Math.max(0, referenceUs - potential.startUs() + 600) / sampleUs);
    int after = (int) Math.ceil(Math.max(0, potential.endUs() - referenceUs + 600) / sampleUs);
    for (int p = 0; p < PHASES; p++) {
      phases[p] = new double[before + after + 2];
      template.addTo(phases[p], (before + (double) p / PHASES) * sampleUs, sampleUs);
    }
  }

  void addTo(double[] samples, double timeUs) {
    long place = Math.round(timeUs / sampleUs * PHASES);
    double[] own = phases[(int) Math.floorMod(place, (long) PHASES)];
    int start = (int) Math.floorDiv(place, (long) PHASES) - before;
    int from = Math.max(0, -start);
    int to = Math.min(own.length, samples.length - start);
    for (int i = from; i < to; i++) {
      samples[start + i] += own[i];
    }
  }
}
