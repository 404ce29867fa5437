package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.ShapeEstimator.Reach;

/**
 * Turns tracks into results: potentials were placed in the signal for timing; their shapes are now
 * read from the conditioned signal at those places, so that sizes are those of the conditioned
 * signal, while errors are those of the placing. Arrivals are refined first ({@link
 * ArrivalRefiner}).
 */
final class TrackReader {

  private static final int PASSES = 2;
  private static final double LONG_BEFORE_US = 900;
  private static final double LONG_AFTER_US = 1300;

  private final PotentialSettings settings;
  private final ConditionedSignal conditioned;

  TrackReader(PotentialSettings settings, ConditionedSignal conditioned) {
    this.settings = settings;
    this.conditioned = conditioned;
  }

  /** The units in the order given, without potentials too small to be reported. */
  List<TrackedUnit> read(List<UnitTrack> placed) {
    ConditionedSignal timing = conditioned.forTiming();
    double[] correlation =
        timing.noiseAutocorrelation(settings.shapeSamples(timing.timeBase()), arrivals(placed));
    ArrivalRefiner refiner = new ArrivalRefiner(timing, correlation, placed);
    List<UnitTrack> units = new ArrayList<>();
    List<double[]> errors = new ArrayList<>();
    for (int u = 0; u < placed.size(); u++) {
      double[] error = new double[placed.get(u).potentials];
      units.add(refiner.refine(placed.get(u), u, error));
      errors.add(error);
    }
    List<UnitTrack> shaped = shaped(units);
    double smallest = settings.smallestSnr() * conditioned.noiseUv();
    OverlapDoubt overlap = new OverlapDoubt(timing.timeBase().lengthSamples(1));
    List<TrackedUnit> read = new ArrayList<>();
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      List<TrackedPotential> potentials = new ArrayList<>();
      for (int p = 0; p < unit.potentials; p++) {
        PotentialShape shape = shaped.get(u).shape[p];
        if (unit.presentCount(p) > 0 && shape.peakToPeakUv() >= smallest) {
          double doubt = overlap.scaleErrorRatio(unit, p);
          potentials.add(TrackedPotential.of(unit, p, shape, errors.get(u)[p], doubt));
        }
      }
      read.add(new TrackedUnit(unit.reference.clone(), unit.segment.clone(), potentials));
    }
    return read;
  }

  private static double[] arrivals(List<UnitTrack> placed) {
    return placed.stream()
        .flatMapToDouble(
            unit ->
                IntStream.range(0, unit.discharges)
                    .boxed()
                    .flatMapToDouble(d -> Arrays.stream(unit.arrival[d])))
        .toArray();
  }

  private List<UnitTrack> shaped(List<UnitTrack> units) {
    PotentialSettings wide = settings.withReachUs(LONG_BEFORE_US, LONG_AFTER_US);
    WindowReader windows = new WindowReader(conditioned);
    TrackedSite site = new TrackedSite();
    ShapeEstimator shapes = new ShapeEstimator(wide, conditioned, site, windows);
    ShapeSeparator separator = new ShapeSeparator(wide, conditioned, site, windows);
    List<UnitTrack> shaped = units.stream().map(UnitTrack::withoutShapes).toList();
    for (int pass = 0; pass < PASSES; pass++) {
      for (int u = 0; u < shaped.size(); u++) {
        UnitTrack unit = shaped.get(u);
        if (pass == 0) {
          shapes.estimate(unit, u, Reach.CONFINED);
        }
        shapes.estimate(unit, u, Reach.WHOLE);
        if (separator.isNeeded(unit)) {
          unit.takeShapes(separator.sweeps(unit, u).separated(unit, separator.weights(unit)));
        }
      }
      site.note(shaped);
    }
    return shaped;
  }
}
