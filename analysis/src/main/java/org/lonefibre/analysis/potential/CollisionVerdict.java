package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.Explanation.Part;
import org.lonefibre.analysis.potential.Explanation.Volley;

/** Says of each potential of an explained discharge whether it is there, absent or uncertain. */
final class CollisionVerdict {

  private static final double SIZE_TOLERANCE = 0.3;
  private static final double LEAST_MISFIT = 2;
  private static final double USUAL_MISFITS = 2.5;
  private static final double ABSENT_SIZE = 0.3;
  private static final double FOREIGN_SHARE = 0.6;
  private static final double BURIED_US = 30;
  private static final double BURIED_RATIO = 0.5;
  private static final double DROWNED_US = 60;
  private static final double DROWNED_RATIO = 2.5;
  private static final double NEAR_US = 350;
  private static final double HARMFUL_US = 5;

  private final SweepFitter fitter;
  private final double near;
  private final double harmful;
  private final double samplesPerUs;

  CollisionVerdict(ConditionedSignal signal, SweepFitter fitter) {
    this.fitter = fitter;
    this.near = signal.timeBase().lengthSamples(NEAR_US);
    this.harmful = signal.timeBase().lengthSamples(HARMFUL_US);
    this.samplesPerUs = signal.timeBase().lengthSamples(1);
  }

  /** A discharge of an explanation whose window starts at a sample of the channel. */
  UnitRevision.Sweep judge(Explanation found, Volley volley, long start, int segment) {
    UnitTrack unit = volley.track();
    int n = unit.potentials;
    double[] arrival = new double[n];
    double[] scale = new double[n];
    double[] widening = new double[n];
    double[] misfit = new double[n];
    Presence[] presence = new Presence[n];
    double anchor = found.anchor(volley);
    boolean sure = false;
    Arrays.fill(widening, 1);
    Arrays.fill(presence, Presence.UNCERTAIN);
    for (int p = 0; p < n; p++) {
      arrival[p] = anchor + unit.lag[p] + start;
      scale[p] = volley.usual()[p];
    }
    for (Part part : found.parts()) {
      if (part.volley() == volley) {
        int p = part.potential();
        arrival[p] = part.position() + start;
        scale[p] = part.scale();
        widening[p] = part.widening();
        misfit[p] = fitter.misfit(found.left(), part.position());
        boolean holds = holds(part, anchor, misfit[p]) && !isBuried(found, part);
        sure |= holds && isExplained(part, misfit[p]);
        presence[p] = holds ? Presence.PRESENT : Presence.UNCERTAIN;
      }
    }
    for (int p = 0; p < n && sure; p++) {
      int potential = p;
      boolean placed =
          found.parts().stream()
              .anyMatch(part -> part.volley() == volley && part.potential() == potential);
      if (!placed && isAbsent(found, volley, p, anchor)) {
        presence[p] = Presence.ABSENT;
      }
    }
    return new UnitRevision.Sweep(
        anchor + start, segment, arrival, scale, widening, misfit, presence);
  }

  private boolean holds(Part part, double anchor, double misfit) {
    UnitTrack unit = part.volley().track();
    double off = Math.abs(part.position() - anchor - unit.lag[part.potential()]);
    return Math.abs(part.sizeRatio() - 1) < SIZE_TOLERANCE
        && off <= fitter.range(unit, part.potential())
        && (isExplained(part, misfit)
            || fitter.shift(unit, part.potential(), part.scale(), misfit) <= harmful);
  }

  /** Whether a potential is explained as well as usual: only then does it speak for its unit. */
  private static boolean isExplained(Part part, double misfit) {
    double usual = part.volley().track().usualMisfit(part.potential());
    return misfit <= Math.max(LEAST_MISFIT, USUAL_MISFITS * Math.max(1, usual));
  }

  /** Whether a foreign potential lies so near that what is not known of it moves this one. */
  private boolean isBuried(Explanation found, Part part) {
    return found.parts().stream()
        .filter(other -> other.volley() != part.volley())
        .anyMatch(
            other -> {
              double distance = Math.abs(other.position() - part.position());
              double ratio = peakToPeakUv(other) / peakToPeakUv(part);
              return (distance < BURIED_US * samplesPerUs && ratio > BURIED_RATIO)
                  || (distance < DROWNED_US * samplesPerUs && ratio > DROWNED_RATIO);
            });
  }

  private static double peakToPeakUv(Part part) {
    return part.scale() * part.shape().peakToPeakUv();
  }

  /** Nothing like the potential is left near its place, and no other hides it. */
  private boolean isAbsent(Explanation found, Volley volley, int p, double anchor) {
    UnitTrack unit = volley.track();
    double expected = anchor + unit.lag[p];
    double reach = fitter.range(unit, p) + near;
    double size = volley.usual()[p] * unit.shape[p].peakToPeakUv();
    boolean hidden =
        found.parts().stream()
            .anyMatch(
                part ->
                    part.volley() != volley
                        && Math.abs(part.position() - expected) < reach
                        && peakToPeakUv(part) > FOREIGN_SHARE * size);
    double at = fitter.scan(unit, p, found.left(), expected);
    double left = unit.shape[p].project(found.left(), at) / unit.shape[p].energy();
    return !hidden && left < ABSENT_SIZE * volley.usual()[p];
  }
}
