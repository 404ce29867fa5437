package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Finds the motor units of a voluntary recording and their discharges.
 *
 * <ul>
 *   <li>Settings in the constructor, a conditioned site in the call, drafts out, the largest first.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class DischargeFinder {

  private static final int MOST_UNITS = 24;
  private static final int MOST_ATTEMPTS = 3;
  private static final double LOCKED_SHARE = 0.5;
  private static final double LOCKED_WINDOW_US = 600;

  private final DischargeSettings settings;

  /** A finder with these settings. */
  public DischargeFinder(DischargeSettings settings) {
    this.settings = settings;
  }

  /** The motor units of a site; spikes that none of them explains come with them. */
  public Discharges find(ConditionedSignal conditioned) {
    ConditionedSignal signal = conditioned.forTiming();
    SpikeTrain spikes = new SpikeDetector(settings).detect(signal);
    Snippets snippets = Snippets.read(signal, spikes);
    int classes = ShapeClasses.label(spikes, snippets, signal.noiseUv());
    UnitSeeker seeker = new UnitSeeker(settings, signal, spikes, snippets);
    List<UnitDraft> units = new ArrayList<>();
    boolean[] tried = new boolean[classes];
    int[] attempts = new int[classes];
    while (units.size() < MOST_UNITS) {
      int anchor = largestClass(spikes, tried);
      if (anchor < 0) {
        break;
      }
      Optional<UnitDraft> unit = seeker.seek(anchor, units.size());
      if (unit.isPresent() && isPartOf(unit.get(), units, signal)) {
        release(spikes, units.size());
        tried[anchor] = true;
        continue;
      }
      unit.ifPresent(units::add);
      tried[anchor] = ++attempts[anchor] >= MOST_ATTEMPTS;
    }
    return new Discharges(
        units, unexplained(spikes), heights(spikes), Discharges.Origin.POTENTIALS);
  }

  /** Whether what was found only repeats the discharges of a unit found before. */
  private boolean isPartOf(UnitDraft unit, List<UnitDraft> units, ConditionedSignal signal) {
    double reach = signal.timeBase().lengthSamples(settings.reachMs() * 1000);
    double window = signal.timeBase().lengthSamples(LOCKED_WINDOW_US);
    return units.stream().anyMatch(other -> unit.lockedRatio(other, reach, window) >= LOCKED_SHARE);
  }

  private static void release(SpikeTrain spikes, int unit) {
    for (int i = 0; i < spikes.count; i++) {
      if (spikes.unit[i] == unit) {
        spikes.unit[i] = SpikeTrain.NONE;
      }
    }
  }

  /** The untried class with enough free spikes whose spikes are largest. */
  private int largestClass(SpikeTrain spikes, boolean[] tried) {
    int[] free = new int[tried.length];
    double[] size = new double[tried.length];
    for (int i = 0; i < spikes.count; i++) {
      if (spikes.unit[i] == SpikeTrain.NONE) {
        free[spikes.label[i]]++;
        size[spikes.label[i]] += Math.abs(spikes.height[i]);
      }
    }
    int best = -1;
    double largest = 0;
    for (int c = 0; c < tried.length; c++) {
      if (!tried[c] && free[c] >= settings.fewestDischarges() && size[c] / free[c] > largest) {
        largest = size[c] / free[c];
        best = c;
      }
    }
    return best;
  }

  private static double[] unexplained(SpikeTrain spikes) {
    double[] positions = new double[spikes.count];
    int n = 0;
    for (int i = 0; i < spikes.count; i++) {
      if (spikes.unit[i] == SpikeTrain.NONE) {
        positions[n++] = spikes.position[i];
      }
    }
    return Arrays.copyOf(positions, n);
  }

  private static double[] heights(SpikeTrain spikes) {
    double[] heights = new double[spikes.count];
    int n = 0;
    for (int i = 0; i < spikes.count; i++) {
      if (spikes.unit[i] == SpikeTrain.NONE) {
        heights[n++] = spikes.height[i];
      }
    }
    return Arrays.copyOf(heights, n);
  }
}
