package org.lonefibre.analysis.density;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;

/**
 * The time-locked potentials at a site that was recorded at random with a single-fibre electrode.
 *
 * <ul>
 *   <li>The motor unit that counts is the one with the largest potential: the needle was moved
 *       until one fibre was near.
 *   <li>A potential counts with {@value #LEAST_UV} uV and {@value #LONGEST_RISE_US} us of rise
 *       time, and within {@value #WINDOW_MS} ms of the largest.
 *   <li>A composite potential counts as one, and the site says so: there are more fibres.
 *   <li>A site without a potential that counts, or without microvolts, is no site.
 * </ul>
 *
 * <p>Source: AANEM handout (200 uV, 300 us); the window is common practice, no source.
 *
 * @param site name of the site
 * @param potentials potentials that count, the largest among them
 * @param motorUnit the unit they belong to
 * @param composites how many of them are composite
 * @param slow potentials that are large enough and rise too slowly to count
 */
public record DensitySite(String site, int potentials, String motorUnit, int composites, int slow) {

  private static final double LEAST_UV = 200;
  private static final double LONGEST_RISE_US = 300;
  private static final double WINDOW_MS = 4;

  /** The site of a recording; empty if nothing counts. */
  public static Optional<DensitySite> of(RecordingResult recording) {
    List<MotorUnitResult> units = recording.motorUnits();
    if (units == null) {
      return Optional.empty();
    }
    return units.stream()
        .filter(unit -> unit.potentials().stream().anyMatch(DensitySite::counts))
        .max(Comparator.comparingDouble(unit -> amplitudeUv(largest(unit))))
        .map(unit -> of(recording.site(), unit));
  }

  private static DensitySite of(String site, MotorUnitResult unit) {
    PotentialResult largest = largest(unit);
    List<PotentialResult> counted = new ArrayList<>();
    int slow = 0;
    for (PotentialResult potential : unit.potentials()) {
      if (Math.abs(potential.offsetMs() - largest.offsetMs()) <= WINDOW_MS) {
        if (counts(potential)) {
          counted.add(potential);
        } else if (amplitudeUv(potential) >= LEAST_UV) {
          slow++;
        }
      }
    }
    return new DensitySite(
        site,
        counted.size(),
        unit.id(),
        (int) counted.stream().filter(p -> p.grade() == Grade.COMPOSITE).count(),
        slow);
  }

  private static boolean counts(PotentialResult potential) {
    Double riseUs = potential.riseTimeUs();
    return amplitudeUv(potential) >= LEAST_UV && riseUs != null && riseUs <= LONGEST_RISE_US;
  }

  private static PotentialResult largest(MotorUnitResult unit) {
    return unit.potentials().stream()
        .filter(DensitySite::counts)
        .max(Comparator.comparingDouble(DensitySite::amplitudeUv))
        .orElseThrow();
  }

  private static double amplitudeUv(PotentialResult potential) {
    Double amplitude = potential.amplitudeUv();
    return amplitude == null ? 0 : amplitude;
  }
}
