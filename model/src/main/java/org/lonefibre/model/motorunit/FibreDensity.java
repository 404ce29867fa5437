package org.lonefibre.model.motorunit;

import java.util.List;
import org.lonefibre.signal.random.RandomStream;

/**
 * Fibre density by the trade's rule (common practice, no source): the needle is put before a fibre
 * for its largest potential, and all potentials locked to it of 200 uV or more that rise in less
 * than 300 us are counted, its own included.
 *
 * <ul>
 *   <li>Potentials are counted in the sum, where those that fall together are one, as they are to
 *       who counts them: each steep phase in the direction of the largest.
 *   <li>The needle stands 0.1 mm before the fibre, an engineering choice.
 *   <li>Fibres that cannot give 10 uV are left out.
 * </ul>
 */
final class FibreDensity {

  private static final double LEAST_UV = 200;
  private static final double LONGEST_RISE_US = 300;
  private static final double BEFORE_FIBRE_MM = 0.1;
  private static final double ASKED_UV = 10;
  private static final double LENGTH_US = 30_000;

  private final SampleMuscle muscle;
  private final OnePole filter;

  FibreDensity(SampleMuscle muscle, OnePole filter) {
    this.muscle = muscle;
    this.filter = filter;
  }

  /** Number of potentials with the needle before a fibre of a unit; 0 if there is none. */
  int at(RandomStream stream) {
    List<PlacedFibre> unit = muscle.draw(stream);
    PlacedFibre aim = unit.get(stream.below(unit.size()));
    double[] sum = new double[(int) (LENGTH_US / SampleMuscle.STEP_US)];
    for (PlacedFibre fibre : muscle.clear(unit, BEFORE_FIBRE_MM - aim.outMm(), -aim.sideMm())) {
      if (muscle.mostUv(fibre) > ASKED_UV) {
        SpikeCounter.add(muscle.potential(fibre), filter, sum);
      }
    }
    return potentials(sum);
  }

  static int potentials(double[] sum) {
    boolean falls = new Flank(sum, SpikeCounter.steepest(sum)).falls();
    int count = 0;
    for (int i = 1; i < sum.length - 1; i++) {
      Flank flank = new Flank(sum, i);
      if (flank.heightUv() > 0) {
        boolean steep = flank.heightUv() >= LEAST_UV && flank.lengthUs() < LONGEST_RISE_US;
        count += steep && flank.falls() == falls ? 1 : 0;
        i = Math.max(i, flank.last());
      }
    }
    return count;
  }
}
