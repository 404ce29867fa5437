package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Times of free spikes around chosen ones, and the places at which they crowd more than chance
 * explains.
 */
final class LagHistogram {

  private static final double SMALLEST_SHARE = 0.12;
  private static final int SMALLEST_CROWD = 6;
  private static final int MOST_PLACES = 10;

  private final SpikeTrain spikes;
  private final double reachSamples;
  private final double windowSamples;
  private final double gatherSamples;
  private final double freeRate;

  /** One free spike seen from one chosen spike. */
  record Entry(int anchor, int spike, double lag) {}

  /** A place at which spikes crowd; at most one entry for each chosen spike. */
  record Place(double lag, double spread, List<Entry> entries) {}

  LagHistogram(
      SpikeTrain spikes, double reachSamples, double windowSamples, double durationSamples) {
    this.spikes = spikes;
    this.reachSamples = reachSamples;
    this.windowSamples = windowSamples;
    this.gatherSamples = 2 * windowSamples;
    int free = 0;
    for (int i = 0; i < spikes.count; i++) {
      free += spikes.unit[i] == SpikeTrain.NONE ? 1 : 0;
    }
    this.freeRate = free / durationSamples;
  }

  /** Places around the chosen spikes, those with the most spikes first. */
  List<Place> places(int[] anchors) {
    List<Place> places = new ArrayList<>();
    for (int sign = -1; sign <= 1; sign += 2) {
      places.addAll(crowds(entries(anchors, sign), anchors.length));
    }
    places.sort(Comparator.comparingInt((Place place) -> -place.entries().size()));
    return places.size() > MOST_PLACES ? places.subList(0, MOST_PLACES) : places;
  }

  private Entry[] entries(int[] anchors, int sign) {
    List<Entry> entries = new ArrayList<>();
    for (int a = 0; a < anchors.length; a++) {
      int anchor = anchors[a];
      double at = spikes.position[anchor];
      int i = spikes.firstAtOrAfter(at - reachSamples);
      for (; i < spikes.count && spikes.position[i] <= at + reachSamples; i++) {
        if (i != anchor
            && spikes.unit[i] == SpikeTrain.NONE
            && spikes.segment[i] == spikes.segment[anchor]
            && spikes.height[i] * sign > 0) {
          entries.add(new Entry(a, i, spikes.position[i] - at));
        }
      }
    }
    Entry[] sorted = entries.toArray(new Entry[0]);
    Arrays.sort(sorted, Comparator.comparingDouble(Entry::lag));
    return sorted;
  }

  private List<Place> crowds(Entry[] entries, int anchors) {
    double chance = anchors * freeRate * windowSamples / 2;
    double least =
        Math.max(
            Math.max(SMALLEST_CROWD, SMALLEST_SHARE * anchors), 3 * chance + 4 * Math.sqrt(chance));
    List<Place> places = new ArrayList<>();
    boolean[] used = new boolean[entries.length];
    while (true) {
      double[] crowd = densest(entries, used);
      if (crowd[1] < least) {
        return places;
      }
      places.add(gather(entries, used, crowd[0]));
    }
  }

  /** Centre and count of the densest window of unused entries. */
  private double[] densest(Entry[] entries, boolean[] used) {
    int best = 0;
    double centre = 0;
    int low = 0;
    int inside = 0;
    for (int high = 0; high < entries.length; high++) {
      inside += used[high] ? 0 : 1;
      while (entries[high].lag() - entries[low].lag() > windowSamples) {
        inside -= used[low] ? 0 : 1;
        low++;
      }
      if (inside > best) {
        best = inside;
        centre = (entries[high].lag() + entries[low].lag()) / 2;
      }
    }
    return new double[] {centre, best};
  }

  private Place gather(Entry[] entries, boolean[] used, double centre) {
    List<Entry> chosen = new ArrayList<>();
    for (int i = 0; i < entries.length; i++) {
      if (!used[i] && Math.abs(entries[i].lag() - centre) < gatherSamples) {
        used[i] = true;
        chosen.add(entries[i]);
      }
    }
    chosen.sort(
        Comparator.comparingInt(Entry::anchor)
            .thenComparingDouble(entry -> Math.abs(entry.lag() - centre)));
    List<Entry> single = new ArrayList<>();
    for (Entry entry : chosen) {
      if (single.isEmpty() || single.get(single.size() - 1).anchor() != entry.anchor()) {
        single.add(entry);
      }
    }
    double[] lags = single.stream().mapToDouble(Entry::lag).toArray();
    double median = RobustStatistics.median(lags);
    return new Place(median, RobustStatistics.standardDeviation(lags), single);
  }
}
