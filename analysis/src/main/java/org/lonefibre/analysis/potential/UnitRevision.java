package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Changes to the discharges of a unit, collected and then made at once. */
final class UnitRevision {

  private final UnitTrack unit;
  private final Map<Integer, Sweep> changed = new HashMap<>();
  private final List<Sweep> added = new ArrayList<>();
  private final Set<Integer> dropped = new HashSet<>();

  /** One discharge as it is to be; positions in samples of the channel. */
  record Sweep(
      double reference,
      int segment,
      double[] arrival,
      double[] scale,
      double[] widening,
      double[] misfit,
      Presence[] presence) {}

  UnitRevision(UnitTrack unit) {
    this.unit = unit;
  }

  /** Replaces a discharge, or adds one if there was none. */
  void put(@Nullable Integer discharge, Sweep sweep) {
    if (discharge == null) {
      added.add(sweep);
    } else {
      changed.put(discharge, sweep);
    }
  }

  /** Leaves a discharge out. */
  void drop(int discharge) {
    dropped.add(discharge);
  }

  /** The unit with all changes. */
  UnitTrack apply() {
    if (changed.isEmpty() && added.isEmpty() && dropped.isEmpty()) {
      return unit;
    }
    record Source(int old, double reference, int segment, @Nullable Sweep sweep) {}
    List<Source> sources = new ArrayList<>();
    for (int d = 0; d < unit.discharges; d++) {
      Sweep sweep = changed.get(d);
      if (sweep != null) {
        sources.add(new Source(d, sweep.reference, sweep.segment, sweep));
      } else if (!dropped.contains(d)) {
        sources.add(new Source(d, unit.reference[d], unit.segment[d], null));
      }
    }
    added.forEach(sweep -> sources.add(new Source(-1, sweep.reference, sweep.segment, sweep)));
    sources.sort(Comparator.comparingDouble(Source::reference));
    UnitTrack revised =
        unit.withDischarges(
            sources.stream().mapToDouble(Source::reference).toArray(),
            sources.stream().mapToInt(Source::segment).toArray(),
            sources.stream().mapToInt(Source::old).toArray());
    for (int d = 0; d < revised.discharges; d++) {
      Sweep sweep = sources.get(d).sweep;
      if (sweep != null) {
        revised.arrival[d] = sweep.arrival;
        revised.scale[d] = sweep.scale;
        revised.widening[d] = sweep.widening;
        revised.misfit[d] = sweep.misfit;
        revised.presence[d] = sweep.presence;
      }
    }
    return revised;
  }
}
