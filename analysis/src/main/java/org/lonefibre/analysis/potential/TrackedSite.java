package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** All potentials placed so far, to take other units out of a window. */
final class TrackedSite {

  private record Placed(double position, double scale, PotentialShape shape, int unit) {}

  private Placed[] placed = new Placed[0];
  private int longest;
  private int units;

  /** Takes note of every present potential of all units. */
  void note(List<UnitTrack> tracks) {
    List<Placed> all = new ArrayList<>();
    units = tracks.size();
    longest = 0;
    for (int u = 0; u < tracks.size(); u++) {
      UnitTrack unit = tracks.get(u);
      for (int p = 0; p < unit.potentials; p++) {
        PotentialShape shape = unit.shape[p];
        if (shape == null) {
          continue;
        }
        longest = Math.max(longest, shape.length());
        for (int d = 0; d < unit.discharges; d++) {
          if (unit.isPresent(d, p)) {
            all.add(new Placed(unit.arrival[d][p], unit.scale[d][p], shape, u));
          }
        }
      }
    }
    all.sort(Comparator.comparingDouble(Placed::position));
    placed = all.toArray(new Placed[0]);
  }

  /** Whether nothing but noise and one unit is known to be there. */
  boolean holdsOneUnit() {
    return units <= 1;
  }

  /** Takes all units but one out of a window that starts at a sample of the channel. */
  void takeOut(double[] window, long startSample, int exceptUnit) {
    for (int i = first(startSample - longest); i < placed.length; i++) {
      Placed other = placed[i];
      if (other.position > startSample + window.length + longest) {
        break;
      }
      if (other.unit != exceptUnit) {
        other.shape.addTo(window, other.position - startSample, -other.scale);
      }
    }
  }

  /** Largest peak to peak of another unit's potential that arrives in a stretch; 0 if none. */
  double largestForeignUv(double fromSamples, double toSamples, int exceptUnit) {
    double largest = 0;
    for (int i = first(fromSamples); i < placed.length && placed[i].position <= toSamples; i++) {
      if (placed[i].unit != exceptUnit) {
        largest = Math.max(largest, placed[i].scale * placed[i].shape.peakToPeakUv());
      }
    }
    return largest;
  }

  private int first(double position) {
    int low = 0;
    int high = placed.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (placed[middle].position < position) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
