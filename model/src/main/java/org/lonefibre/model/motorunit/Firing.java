package org.lonefibre.model.motorunit;

import java.util.Arrays;
import org.lonefibre.signal.random.RandomStream;

/**
 * Draws the discharges of a unit: Gaussian intervals about a mean that swings slowly, redrawn when
 * shorter than the refractory time; doublets on top. The process runs on through pauses, unheard.
 */
final class Firing {

  private static final double DOUBLET_S = 0.003;
  private static final double DOUBLET_SPAN_S = 0.006;

  private final FiringSettings settings;

  Firing(FiringSettings settings) {
    this.settings = settings;
  }

  /** Times in seconds within the stretch heard, rising. */
  double[] dischargeTimesS(double fromS, double toS, RandomStream stream) {
    double meanS = 1 / settings.rateHz();
    double phase = 2 * Math.PI * stream.uniformProbability();
    RandomStream doublets = stream.child("doublets");
    double time = fromS + (stream.uniformProbability() - 1) * meanS;
    double[] times = new double[64];
    int count = 0;
    while (true) {
      double swing =
          settings.driftRatio()
              * StrictMath.sin(2 * Math.PI * time / settings.driftPeriodS() + phase);
      time += intervalS(meanS * (1 + swing), stream);
      if (time >= toS) {
        return Arrays.copyOf(times, count);
      }
      if (time >= fromS && heard(time)) {
        if (count == times.length) {
          times = Arrays.copyOf(times, 2 * count);
        }
        times[count++] = time;
      }
      double soon = time + DOUBLET_S + DOUBLET_SPAN_S * doublets.uniformProbability();
      boolean again = doublets.happens(settings.doubletProbability());
      if (again && time >= fromS && soon < toS && heard(time) && heard(soon)) {
        if (count == times.length) {
          times = Arrays.copyOf(times, 2 * count);
        }
        times[count++] = soon;
      }
    }
  }

  private double intervalS(double meanS, RandomStream stream) {
    for (int attempt = 0; attempt < 1000; attempt++) {
      double interval = meanS * (1 + settings.variationRatio() * stream.gaussianRatio());
      if (interval >= settings.refractoryMs() * 1e-3 && interval > 0) {
        return interval;
      }
    }
    return Math.max(meanS, settings.refractoryMs() * 1e-3);
  }

  private boolean heard(double timeS) {
    if (timeS < settings.startS() || timeS > settings.stopS()) {
      return false;
    }
    return settings.pauses().stream()
        .noneMatch(pause -> timeS >= pause.startS() && timeS <= pause.endS());
  }
}
