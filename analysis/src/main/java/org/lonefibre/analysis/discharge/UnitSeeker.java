package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;

/**
 * Finds one motor unit at a time: from the spikes of one shape, the places around them at which
 * other spikes crowd ({@link LagHistogram}), then the discharges that show this pattern, whole or
 * in part ({@link PatternMatcher}). Spikes of a unit found are taken out before the next is sought.
 */
final class UnitSeeker {

  private static final double WINDOW_US = 250;
  private static final int ROUNDS = 3;
  private static final double EXCLUSIVE = 0.25;
  private static final double SMALLEST_EXPECTED = 5;

  private final DischargeSettings settings;
  private final ConditionedSignal signal;
  private final SpikeTrain spikes;
  private final Snippets snippets;
  private final UnitSplitter splitter;
  private final double durationSamples;

  UnitSeeker(
      DischargeSettings settings, ConditionedSignal signal, SpikeTrain spikes, Snippets snippets) {
    this.settings = settings;
    this.signal = signal;
    this.spikes = spikes;
    this.snippets = snippets;
    this.splitter = new UnitSplitter(settings, signal);
    this.durationSamples = signal.segments().stream().mapToLong(Segment::sampleCount).sum();
  }

  /** The unit to which the spikes of one class belong, if there is one; its spikes are marked. */
  Optional<UnitDraft> seek(int label, int unit) {
    int[] anchors = ofOneUnit(free(label));
    LagHistogram histogram =
        new LagHistogram(
            spikes,
            signal.timeBase().lengthSamples(settings.reachMs() * 1000),
            signal.timeBase().lengthSamples(WINDOW_US),
            durationSamples);
    anchors = firstsOfDoublets(anchors, histogram.places(anchors));
    List<LagHistogram.Place> places = histogram.places(anchors);
    for (int round = 0; round < ROUNDS; round++) {
      int[] narrowed = oneOfTwo(anchors, places);
      if (narrowed.length == anchors.length) {
        break;
      }
      anchors = narrowed;
      places = histogram.places(anchors);
    }
    PatternMatcher matcher = new PatternMatcher(settings, signal, spikes, snippets, splitter);
    return matcher.match(roles(anchors, places), unit);
  }

  private int[] ofOneUnit(int[] anchors) {
    double[] places = Arrays.stream(anchors).mapToDouble(i -> spikes.position[i]).toArray();
    int[] segments = Arrays.stream(anchors).map(i -> spikes.segment[i]).toArray();
    return Arrays.stream(splitter.one(places, segments)).map(i -> anchors[i]).toArray();
  }

  private int[] free(int label) {
    int[] found = new int[spikes.count];
    int n = 0;
    for (int i = 0; i < spikes.count; i++) {
      if (spikes.label[i] == label && spikes.unit[i] == SpikeTrain.NONE) {
        found[n++] = i;
      }
    }
    return Arrays.copyOf(found, n);
  }

  /**
   * Two fibres of one unit may look alike: then each chosen spike has another chosen one at a fixed
   * time before or after it. Only the first of the two is kept.
   */
  private int[] firstsOfDoublets(int[] anchors, List<LagHistogram.Place> places) {
    boolean[] second = new boolean[anchors.length];
    for (LagHistogram.Place place : places) {
      if (place.lag() < 0) {
        for (LagHistogram.Entry entry : place.entries()) {
          if (Arrays.binarySearch(anchors, entry.spike()) >= 0) {
            second[entry.anchor()] = true;
          }
        }
      }
    }
    return keep(anchors, second);
  }

  /**
   * Two units may share a shape: then two places never occur together. Those with the commoner
   * place are kept; the others are found later.
   */
  private int[] oneOfTwo(int[] anchors, List<LagHistogram.Place> places) {
    for (int r = 0; r < places.size(); r++) {
      for (int s = r + 1; s < places.size(); s++) {
        boolean[] first = occupied(places.get(r), anchors.length);
        boolean[] other = occupied(places.get(s), anchors.length);
        int together = 0;
        for (int a = 0; a < anchors.length; a++) {
          together += first[a] && other[a] ? 1 : 0;
        }
        double expected =
            (double) places.get(r).entries().size()
                * places.get(s).entries().size()
                / anchors.length;
        boolean near =
            Math.abs(places.get(r).lag() - places.get(s).lag())
                < signal.timeBase().lengthSamples(1000);
        if (!near && expected >= SMALLEST_EXPECTED && together < EXCLUSIVE * expected) {
          boolean[] drop = new boolean[anchors.length];
          for (int a = 0; a < anchors.length; a++) {
            drop[a] = !first[a];
          }
          int[] kept = keep(anchors, drop);
          return kept.length >= settings.fewestDischarges() ? kept : anchors;
        }
      }
    }
    return anchors;
  }

  private static boolean[] occupied(LagHistogram.Place place, int anchors) {
    boolean[] occupied = new boolean[anchors];
    for (LagHistogram.Entry entry : place.entries()) {
      occupied[entry.anchor()] = true;
    }
    return occupied;
  }

  private static int[] keep(int[] anchors, boolean[] drop) {
    int[] kept = new int[anchors.length];
    int n = 0;
    for (int a = 0; a < anchors.length; a++) {
      if (!drop[a]) {
        kept[n++] = anchors[a];
      }
    }
    return Arrays.copyOf(kept, n);
  }

  private List<Role> roles(int[] anchors, List<LagHistogram.Place> places) {
    List<Role> roles = new ArrayList<>();
    roles.add(PatternMatcher.role(snippets, anchors, 0, 0, 1));
    for (LagHistogram.Place place : places) {
      int[] members = place.entries().stream().mapToInt(LagHistogram.Entry::spike).toArray();
      roles.add(
          PatternMatcher.role(
              snippets,
              members,
              place.lag(),
              place.spread(),
              (double) members.length / anchors.length));
    }
    return roles;
  }
}
