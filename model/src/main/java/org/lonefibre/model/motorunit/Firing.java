package org.lonefibre.model.motorunit;

import java.util.Arrays;
import org.lonefibre.signal.random.RandomStream;

/**
 * Draws the discharges of a unit: Gaussian intervals about a mean that swings slowly, redrawn when
 * shorter than the refractory time; doublets on request. The process runs on through pauses,
 * unheard.
 */
final class Firing {

  private final FiringSettings settings;

  Firing(FiringSettings settings) {
    this.settings = settings;
  }

  /** Times in seconds within the stretch heard, rising. */
  double[] dischargeTimesS(double fromS, double toS, RandomStream stream) {
    double meanS = 1 / settings.rateHz();
    double phase = 2 * Math.PI * stream.uniformProbability();
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
        double second = doubletS(time, stream);
        if (second > time && second < toS && heard(second)) {
          times = count == times.length ? Arrays.copyOf(times, 2 * count) : times;
          times[count++] = second;
          time = second;
        }
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

  /** Time of a second discharge close behind; the same time if there is none. */
  private double doubletS(double timeS, RandomStream stream) {
    if (settings.doubletProbability() == 0 || !stream.happens(settings.doubletProbability())) {
      return timeS;
    }
    double intervalMs = settings.doubletMs() * (1 + 0.1 * stream.gaussianRatio());
    return timeS + 1e-3 * Math.max(0.5 * settings.doubletMs(), intervalMs);
  }

  private boolean heard(double timeS) {
    if (timeS < settings.startS() || timeS > settings.stopS()) {
      return false;
    }
    return settings.pauses().stream()
        .noneMatch(pause -> timeS >= pause.startS() && timeS <= pause.endS());
  }
}
