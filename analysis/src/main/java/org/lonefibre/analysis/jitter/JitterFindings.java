package org.lonefibre.analysis.jitter;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The words of what is found about one series. */
final class JitterFindings {

  private static final String SCALE_ERROR = "standard error of the scale";

  /** What any near neighbour leaves unknown, as a share: a note; more is a caution. */
  private static final double USUAL_SCALE_ERROR = 0.05;

  private JitterFindings() {}

  static Finding tooFewDifferences(JitterCounts counts, JitterSettings settings) {
    return Finding.exclusion(
        FindingCode.TOO_FEW_DIFFERENCES,
        text(
            "Unmeasurable: %d differences between neighbouring sweeps, at least %d are needed; "
                + "%d of %d sweeps are present, %d blocked.",
            counts.differences(),
            settings.minimumDifferences(),
            counts.presentSweeps(),
            counts.sweeps(),
            counts.blockedSweeps()),
        Evidence.of(new Quantity("differences", counts.differences(), "")));
  }

  static Finding fewDifferences(JitterCounts counts, JitterSettings settings) {
    return Finding.caution(
        FindingCode.FEW_DIFFERENCES,
        text(
            "The jitter rests on %d differences; %d or more are usual.",
            counts.differences(), settings.fewDifferences()),
        Evidence.of(new Quantity("differences", counts.differences(), "")));
  }

  static Finding twoClusters(TwoClusters found, IntervalSeries.Kind kind) {
    String cause =
        kind == IntervalSeries.Kind.STIMULUS_LATENCY
            ? " Intermittent subliminal stimulation or an axon reflex can do this."
            : "";
    return Finding.exclusion(
        FindingCode.TWO_CLUSTERS,
        text(
            "The intervals jump between two clusters, %.0f us (%d sweeps) and %.0f us (%d sweeps), "
                + "%d times: no single jitter describes them. Within the clusters the mean "
                + "consecutive difference is %.1f us.%s",
            found.shortMedianUs(),
            found.shortSweeps(),
            found.longMedianUs(),
            found.longSweeps(),
            found.passages(),
            found.withinDifferenceUs(),
            cause),
        new Evidence(
            List.of(),
            found.sweepsOfSmaller(),
            List.of(
                new Quantity("shorter interval", found.shortMedianUs(), "us"),
                new Quantity("longer interval", found.longMedianUs(), "us"),
                new Quantity("difference within clusters", found.withinDifferenceUs(), "us"))));
  }

  static Finding trend(double consecutiveUs, double otherUs, String otherName) {
    return Finding.caution(
        FindingCode.TREND,
        text(
            "The intervals drift slowly: the mean consecutive difference of %.1f us is %.2f of the "
                + "%s of %.1f us. The mean consecutive difference stays the jitter.",
            consecutiveUs, consecutiveUs / otherUs, otherName, otherUs),
        Evidence.of(
            new Quantity("mean consecutive difference", consecutiveUs, "us"),
            new Quantity(otherName, otherUs, "us")));
  }

  static Finding rateDependent(double consecutiveUs, double sortedUs, JitterSettings settings) {
    return Finding.caution(
        FindingCode.RATE_DEPENDENCE,
        text(
            "The intervals depend on the inter-discharge interval before them: mean consecutive "
                + "difference %.1f us, mean sorted-data difference %.1f us, ratio over %.2f. The "
                + "mean sorted-data difference is quoted.",
            consecutiveUs, sortedUs, settings.sortedRatio()),
        Evidence.of(
            new Quantity("mean consecutive difference", consecutiveUs, "us"),
            new Quantity("mean sorted-data difference", sortedUs, "us")));
  }

  static Finding lowJitter(
      double jitterUs, double correctedUs, IntervalSeries.Kind kind, JitterSettings settings) {
    String cause =
        kind == IntervalSeries.Kind.STIMULUS_LATENCY
            ? "the muscle fibre is probably stimulated directly"
            : "probably two branches of one split fibre";
    return Finding.exclusion(
        FindingCode.LOW_JITTER,
        text(
            "Jitter %.1f us (corrected %.1f us) is below %.0f us: %s. Listed apart, not in the "
                + "statistics.",
            jitterUs, correctedUs, settings.lowJitterUs(), cause),
        Evidence.of(
            new Quantity("jitter", jitterUs, "us"),
            new Quantity("corrected jitter", correctedUs, "us")));
  }

  static Finding directStimulation(double jitterUs) {
    return Finding.exclusion(
        FindingCode.DIRECT_STIMULATION,
        text(
            "The latency varies by %.1f us only: no end-plate lies between the stimulus and the "
                + "fibre.",
            jitterUs),
        Evidence.of(new Quantity("jitter", jitterUs, "us")));
  }

  static Finding nearFloor(double jitterUs, double floorUs, double correctedHighUs) {
    return Finding.caution(
        FindingCode.NEAR_FLOOR,
        text(
            "The jitter of %.1f us lies near its timing floor of %.1f us: errors of the arrival "
                + "times explain much of it. The corrected jitter is at most %.1f us.",
            jitterUs, floorUs, correctedHighUs),
        Evidence.of(
            new Quantity("jitter", jitterUs, "us"), new Quantity("timing floor", floorUs, "us")));
  }

  static Finding longInterval(double meanUs, JitterSettings settings) {
    return Finding.exclusion(
        FindingCode.LONG_INTERVAL,
        text(
            "The mean interval of %.2f ms is over %.1f ms: velocity recovery adds to the jitter.",
            meanUs / 1000, settings.longIntervalUs() / 1000),
        Evidence.of(new Quantity("mean interval", meanUs, "us")));
  }

  static Finding shortInterval(double meanUs, JitterSettings settings) {
    return Finding.caution(
        FindingCode.SHORT_INTERVAL,
        text(
            "The mean interval of %.0f us is under %.0f us: the potentials overlap.",
            meanUs, settings.shortIntervalUs()),
        Evidence.of(new Quantity("mean interval", meanUs, "us")));
  }

  static Finding overlappingShapes(IntervalSeries series) {
    double share = series.scaleErrorRatio();
    String text =
        text(
            "The potentials overlap: the scale of the jitter is known to %.1f %% (standard error); its"
                + " interval contains that.",
            100 * share);
    Evidence evidence = Evidence.of(new Quantity(SCALE_ERROR, 100 * share, "%"));
    return share > USUAL_SCALE_ERROR
        ? Finding.caution(FindingCode.OVERLAPPING_SHAPES, text, evidence)
        : Finding.note(FindingCode.OVERLAPPING_SHAPES, text, evidence);
  }

  static double scaleErrorRatio(List<Finding> findings) {
    return findings.stream()
        .filter(finding -> finding.code() == FindingCode.OVERLAPPING_SHAPES)
        .flatMap(finding -> finding.evidence().quantities().stream())
        .filter(quantity -> quantity.name().equals(SCALE_ERROR))
        .mapToDouble(quantity -> quantity.value() / 100)
        .max()
        .orElse(0);
  }

  static Finding highBlocking(JitterCounts counts, double percent, List<Integer> sweeps) {
    return Finding.caution(
        FindingCode.HIGH_BLOCKING,
        text(
            "%d of %d sweeps (%.0f %%) are blocked: the jitter of the rest is not reliable.",
            counts.blockedSweeps(), counts.blockedSweeps() + counts.presentSweeps(), percent),
        new Evidence(List.of(), sweeps, List.of(new Quantity("blocking", percent, "%"))));
  }

  static String text(String format, @Nullable Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
