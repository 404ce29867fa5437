package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.workbench.declaration.NeedleModel.Section;

/** Planes through a needle's core: across the fibres, and along them. */
final class NeedleSections {

  private static final int CELLS = 48;
  private static final double AROUND_MM = 0.9;
  private static final double BEHIND_MM = -0.7;
  private static final double BEFORE_MM = 1.1;

  private NeedleSections() {}

  static List<Section> of(SolvedNeedle needle) {
    List<Double> across = places(-AROUND_MM, AROUND_MM);
    List<Double> up = places(BEHIND_MM, BEFORE_MM);
    return List.of(
        new Section(
            "across the fibres",
            "towards the tip, mm",
            "out of the core, mm",
            across,
            up,
            rows(across, up, (a, u) -> lead(needle, a, u, 0))),
        new Section(
            "along the fibres",
            "along the fibres, mm",
            "out of the core, mm",
            across,
            up,
            rows(across, up, (a, u) -> lead(needle, 0, u, a))));
  }

  private interface Plane {
    @Nullable Double at(double acrossMm, double upMm);
  }

  private static List<Double> places(double fromMm, double toMm) {
    List<Double> places = new ArrayList<>();
    for (int i = 0; i <= CELLS; i++) {
      places.add(fromMm + (toMm - fromMm) * i / CELLS);
    }
    return places;
  }

  private static List<List<@Nullable Double>> rows(
      List<Double> across, List<Double> up, Plane plane) {
    return IntStream.range(0, up.size())
        .parallel()
        .mapToObj(
            row -> {
              List<@Nullable Double> values = new ArrayList<>();
              for (double place : across) {
                values.add(plane.at(place, up.get(row)));
              }
              return Collections.unmodifiableList(values);
            })
        .toList();
  }

  private static @Nullable Double lead(SolvedNeedle needle, double x, double y, double z) {
    if (needle.holds(x, y, z)) {
      return null;
    }
    double lead = needle.leadOhm(x, y, z)[0];
    return Double.isFinite(lead) ? lead : null;
  }
}
