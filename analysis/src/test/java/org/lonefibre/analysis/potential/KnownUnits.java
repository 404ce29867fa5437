package org.lonefibre.analysis.potential;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.discharge.DischargeFinder;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.analysis.settings.AnalysisSettings;

/**
 * Units whose every discharge is known, in a recording drawn sample by sample, with the workers
 * that follow them: each can be asked alone.
 */
final class KnownUnits {

  final ConditionedSignal signal;
  final TrackedSite site = new TrackedSite();
  final WindowReader windows;
  final UnitWorkers workers;

  KnownUnits(DrawnRecording recording) throws IOException {
    AnalysisSettings settings = AnalysisSettings.defaultsFor("single-fibre");
    ConditionedSignal conditioned =
        new Conditioner(settings.conditioning()).condition(recording, recording.channels().get(0));
    Discharges found = new DischargeFinder(settings.discharge()).find(conditioned);
    PotentialSettings whole = settings.potential().whole();
    signal = conditioned.forTiming();
    windows = new WindowReader(signal);
    workers =
        new UnitWorkers(
            new ShapeEstimator(whole, signal, site, windows),
            new ShapeSeparator(whole, signal, site, windows),
            new SweepFitter(whole, Stage.APART, signal, found, site, windows),
            new PotentialCensus(whole, Stage.APART, signal, site, windows),
            signal.noiseUv(),
            signal.timeBase().lengthSamples(1));
  }

  /** What other units leave free of a discharge. */
  FreedStretches stretches() {
    return new FreedStretches(signal, site, windows, workers.fitter());
  }

  /** A unit that fired at these times, in s, with potentials so long after each, settled. */
  UnitTrack unit(double[] firedS, double... lagsUs) {
    return settled(placed(firedS, lagsUs), 0);
  }

  /** The same, its shapes unknown. */
  static UnitTrack placed(double[] firedS, double... lagsUs) {
    double[] reference = Arrays.stream(firedS).map(time -> time * DrawnRecording.RATE_HZ).toArray();
    double[] lags = Arrays.stream(lagsUs).map(lag -> lag * 1e-6 * DrawnRecording.RATE_HZ).toArray();
    UnitTrack unit = new UnitTrack(reference, new int[reference.length], lags);
    for (Presence[] presence : unit.presence) {
      Arrays.fill(presence, Presence.PRESENT);
    }
    return unit;
  }

  /** Shapes, places and sizes from where it stands; all others are taken out. */
  UnitTrack settled(UnitTrack unit, int u) {
    workers.settle(unit, u);
    return unit;
  }

  /** Several units that know of each other. */
  List<UnitTrack> noted(UnitTrack... units) {
    List<UnitTrack> all = new ArrayList<>(List.of(units));
    for (int round = 0; round < 2; round++) {
      for (int u = 0; u < units.length; u++) {
        settled(units[u], u);
        site.note(all.stream().filter(unit -> unit.shape[0] != null).toList());
      }
    }
    return all;
  }
}
