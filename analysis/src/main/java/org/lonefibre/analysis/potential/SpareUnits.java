package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Leaves out units that are not needed: those of fewer discharges, most of which the others explain
 * as well, alone or together. Such a unit is made of what was missed of others; they get it back.
 */
final class SpareUnits {

  private static final double FEW_SHARE = 0.6;
  private static final double EXPLAINED_SHARE = 0.45;

  private final CollisionFitter collisions;
  private final TrackedSite site;

  SpareUnits(CollisionFitter collisions, TrackedSite site) {
    this.collisions = collisions;
    this.site = site;
  }

  /** The units that are needed, in the same order: the list itself if all are. */
  List<UnitTrack> leaveOut(List<UnitTrack> units) {
    int most = units.stream().mapToInt(unit -> unit.discharges).max().orElse(0);
    int[] few =
        IntStream.range(0, units.size())
            .filter(u -> units.get(u).discharges < FEW_SHARE * most)
            .boxed()
            .sorted(Comparator.comparingInt(u -> units.get(u).discharges))
            .mapToInt(Integer::intValue)
            .toArray();
    for (int u : few) {
      CollisionFitter.Spared spared = collisions.spare(units, u);
      if (spared.explained() >= EXPLAINED_SHARE * units.get(u).discharges) {
        List<UnitTrack> others = new ArrayList<>(spared.others());
        site.note(others);
        return leaveOut(others);
      }
    }
    return units;
  }
}
