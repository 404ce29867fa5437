package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A range of samples of a channel.
 *
 * @param first first sample
 * @param end sample after the last
 */
record Stretch(long first, long end) {

  long length() {
    return end - first;
  }

  /** In order, those closer than a distance made one. */
  static List<Stretch> merged(List<Stretch> stretches, long distance) {
    List<Stretch> merged = new ArrayList<>();
    for (Stretch next :
        stretches.stream().sorted(Comparator.comparingLong(Stretch::first)).toList()) {
      Stretch last = merged.isEmpty() ? null : merged.get(merged.size() - 1);
      if (last != null && next.first - last.end < distance) {
        merged.set(merged.size() - 1, new Stretch(last.first, Math.max(last.end, next.end)));
      } else {
        merged.add(next);
      }
    }
    return merged;
  }
}
