package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.Channel;

/**
 * Finds samples that stand at the ends of the converter's range: three or more in a row
 * (engineering choice: a writer that scales a signal to its range puts single samples there).
 */
final class RailWatch {

  private static final int FEWEST = 3;

  private final double low;
  private final double high;
  private final List<Stretch> clipped = new ArrayList<>();
  private long runFrom = -1;
  private long runTo = -1;

  RailWatch(Channel channel) {
    Double lowRail = channel.lowRailUv();
    Double highRail = channel.highRailUv();
    if (lowRail == null || highRail == null || lowRail.equals(highRail)) {
      low = Double.NEGATIVE_INFINITY;
      high = Double.POSITIVE_INFINITY;
    } else {
      double lower = Math.min(lowRail, highRail);
      double upper = Math.max(lowRail, highRail);
      Double step = channel.resolutionUv();
      double near = step == null ? 1e-9 * (upper - lower) : Math.abs(step) / 2;
      low = lower + near;
      high = upper - near;
    }
  }

  /** Values from here down are at the rail. */
  double low() {
    return low;
  }

  /** Values from here up are at the rail. */
  double high() {
    return high;
  }

  void look(double[] samples, int from, int to, long place) {
    for (int i = from; i < to; i++) {
      if (samples[i] <= low || samples[i] >= high) {
        long sample = place + (i - from);
        if (runTo != sample) {
          endRun();
          runFrom = sample;
        }
        runTo = sample + 1;
      }
    }
  }

  void endRun() {
    if (runFrom >= 0 && runTo - runFrom >= FEWEST) {
      int last = clipped.size() - 1;
      if (last >= 0 && runFrom - clipped.get(last).end() < SiteScan.GROUP) {
        clipped.set(last, new Stretch(clipped.get(last).first(), runTo));
      } else {
        clipped.add(new Stretch(runFrom, runTo));
      }
    }
    runFrom = -1;
    runTo = -1;
  }

  List<Stretch> clipped() {
    return clipped;
  }
}
