package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The reasons for a grade, in words. */
final class GradeReasons {

  private static final double VARIES = 1.5;
  private static final double FOLLOWS = 3.5;
  private static final double UNLIKE = 0.05;

  private GradeReasons() {}

  /** Shape that varies, or moves against the arrivals. */
  static @Nullable Finding variation(ShapeMeasures shape, Grade grade) {
    Double follows = shape.followsRatio();
    boolean varies = shape.varianceRatio() > VARIES;
    boolean moves = follows != null && follows > FOLLOWS;
    if (grade == Grade.SINGLE_FIBRE || !(varies || moves)) {
      return null;
    }
    double ratio = Math.sqrt(Math.max(1, shape.varianceRatio()));
    List<Quantity> quantities = new ArrayList<>();
    quantities.add(new Quantity("variation over noise", ratio, ""));
    quantities.add(new Quantity("delay", shape.delayUs(), "us"));
    String text =
        varies
            ? String.format(
                Locale.ROOT,
                "The shape varies between sweeps %.1f times more than noise and neighbours explain; a second"
                    + " fibre about %.0f us %s%s would do this.",
                ratio,
                Math.abs(shape.delayUs()),
                shape.delayUs() < 0 ? "earlier" : "later",
                size(shape, quantities))
            : String.format(
                Locale.ROOT,
                "A part of the potential does not follow its arrival; a second fibre about %.0f us"
                    + " %s%s would do this.",
                Math.abs(shape.delayUs()),
                shape.delayUs() < 0 ? "earlier" : "later",
                size(shape, quantities));
    if (follows != null) {
      quantities.add(new Quantity("movement against arrivals over chance", follows, ""));
    }
    return Finding.caution(
        FindingCode.SHAPE_VARIANCE,
        text + jitter(shape, quantities),
        Evidence.of(quantities.toArray(new Quantity[0])));
  }

  private static String size(ShapeMeasures shape, List<Quantity> quantities) {
    double size = Math.min(1, shape.sizeRatio());
    if (Double.isNaN(size) || size < 0.02) {
      return "";
    }
    quantities.add(new Quantity("size of a second fibre", 100 * size, "%"));
    return String.format(Locale.ROOT, " and at least %.0f %% as large", 100 * size);
  }

  private static String jitter(ShapeMeasures shape, List<Quantity> quantities) {
    double ratio = shape.jitterRatio();
    if (Double.isNaN(ratio)) {
      return "";
    }
    double percent = 100 * (ratio - 1);
    quantities.add(new Quantity("jitter against that of one fibre", 100 * ratio, "%"));
    return Math.abs(percent) < 3
        ? " Jittering as much, it would hardly change the jitter."
        : String.format(
            Locale.ROOT,
            " Jittering as much, it would make the jitter look at least %.0f %% %s.",
            Math.abs(percent),
            percent < 0 ? "smaller" : "larger");
  }

  /** A shape that no single fibre of the family comes near to. */
  static @Nullable Finding unlike(ShapeMeasures shape) {
    return shape.misfitRatio() < UNLIKE
        ? null
        : Finding.note(
            FindingCode.SHAPE_UNLIKE_ONE_FIBRE,
            String.format(
                Locale.ROOT,
                "No single fibre in the model looks like this before a needle; the nearest leaves"
                    + " %.0f %% of the size.",
                100 * shape.misfitRatio()),
            Evidence.of(new Quantity("left by the nearest", 100 * shape.misfitRatio(), "%")));
  }

  static Finding composite(double probability) {
    return Finding.exclusion(
        FindingCode.COMPOSITE,
        "More than one fibre made this potential: no jitter is quoted from it.",
        Evidence.of(new Quantity("probability of one fibre", probability, "")));
  }

  static Finding doubtful(double probability, double snr) {
    return Finding.caution(
        FindingCode.DOUBTFUL_POTENTIAL,
        String.format(
            Locale.ROOT,
            "Whether one fibre made this potential cannot be decided (SNR %.0f,"
                + " probability of one fibre %.2f).",
            snr,
            probability),
        Evidence.of(new Quantity("probability of one fibre", probability, "")));
  }

  static Finding fewSweeps(int seen, int needed) {
    return Finding.caution(
        FindingCode.DOUBTFUL_POTENTIAL,
        String.format(Locale.ROOT, "Seen in %d sweeps; %d are needed to judge it.", seen, needed),
        Evidence.NONE);
  }

  static Finding neighbour() {
    return Finding.caution(
        FindingCode.NO_BASELINE_RETURN,
        "Another potential of the unit arrives within 300 us: the two are not clearly separate.",
        Evidence.NONE);
  }

  static Finding fan(RisingPhases.Fan fan) {
    return Finding.caution(
        FindingCode.NOT_PARALLEL,
        String.format(
            Locale.ROOT,
            "The rising phases are not parallel: the time between two levels varies by %.0f us from"
                + " sweep to sweep, noise would give %.0f us.",
            fan.spreadUs(),
            fan.noiseUs()),
        Evidence.of(
            new Quantity("variation of the phase", fan.spreadUs(), "us"),
            new Quantity("by noise", fan.noiseUs(), "us")));
  }

  static Finding dropOut(ComponentDropOut.Step step) {
    return Finding.caution(
        FindingCode.COMPONENT_DROP_OUT,
        String.format(
            Locale.ROOT,
            "The potential loses a step of %.0f %% of its size in %d of %d sweeps looked at: one of"
                + " several fibres in it failed, a block that hides in a composite.",
            100 * step.lossRatio(),
            step.lost().size(),
            step.sweeps()),
        new Evidence(
            List.of(),
            step.lost().stream().map(d -> d + 1).toList(),
            List.of(new Quantity("size lost", 100 * step.lossRatio(), "%"))));
  }
}
