package org.lonefibre.analysis;

import java.util.List;
import java.util.Locale;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** Writes down with a potential what overlap leaves unknown of its arrivals, and reads it again. */
final class OverlapFinding {

  private OverlapFinding() {}

  /** A note of the standard error of the scale of a potential's arrivals. */
  static Finding of(double scaleErrorShare) {
    double percent = 100 * scaleErrorShare;
    return Finding.note(
        FindingCode.OVERLAPPING_SHAPES,
        String.format(
            Locale.ROOT,
            "Another potential of the unit overlaps it: how far it moves is known to %.1f %% only.",
            percent),
        Evidence.of(new Quantity("standard error of the scale", percent, "%")));
  }

  /** The share that such a note holds; 0 if there is none. */
  static double scaleErrorShare(List<Finding> findings) {
    return findings.stream()
        .filter(finding -> finding.code() == FindingCode.OVERLAPPING_SHAPES)
        .flatMap(finding -> finding.evidence().quantities().stream())
        .mapToDouble(quantity -> quantity.value() / 100)
        .max()
        .orElse(0);
  }
}
