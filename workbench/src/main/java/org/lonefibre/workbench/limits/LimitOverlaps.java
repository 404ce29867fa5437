package org.lonefibre.workbench.limits;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitChoice;
import org.lonefibre.analysis.reference.PublishedLimit;
import org.lonefibre.analysis.study.Activation;

/** Muscles, needles and activations for which more than one set in use holds. */
final class LimitOverlaps {

  /**
   * A place where a laboratory has to pick a set.
   *
   * @param sets the sets in use there, at whatever age
   * @param chosen the one that was picked; null if none was
   */
  record Overlap(
      String muscle,
      String needle,
      Activation activation,
      List<NamedSet> sets,
      @Nullable String chosen) {}

  /** A set with the name people read. */
  record NamedSet(String set, String setName) {}

  private record Place(String muscle, String needle, Activation activation) {}

  private LimitOverlaps() {}

  static List<Overlap> of(LimitCatalogue catalogue, List<LimitChoice> choices) {
    Map<Place, Map<String, NamedSet>> places = new LinkedHashMap<>();
    for (PublishedLimit row : catalogue.listPublished()) {
      if (row.use().equals("on")) {
        for (String needle : row.needles()) {
          places
              .computeIfAbsent(
                  new Place(row.muscle(), needle, row.activation()), p -> new LinkedHashMap<>())
              .put(row.set(), new NamedSet(row.set(), row.setName()));
        }
      }
    }
    List<Overlap> overlaps = new ArrayList<>();
    places.forEach(
        (place, sets) -> {
          if (sets.size() > 1) {
            overlaps.add(
                new Overlap(
                    place.muscle(),
                    place.needle(),
                    place.activation(),
                    List.copyOf(sets.values()),
                    chosen(place, choices)));
          }
        });
    return overlaps;
  }

  private static @Nullable String chosen(Place place, List<LimitChoice> choices) {
    return choices.stream()
        .filter(
            choice ->
                choice.muscle().equals(place.muscle())
                    && choice.needle().equals(place.needle())
                    && choice.activation() == place.activation())
        .map(LimitChoice::set)
        .findFirst()
        .orElse(null);
  }
}
