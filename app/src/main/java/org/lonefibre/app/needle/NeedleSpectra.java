package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.fibre.PotentialSpectrum;
import org.lonefibre.model.fibre.RadialFilter;

/** Spectra near and far, and what a step of distance does, beside what was measured. */
final class NeedleSpectra {

  /** Measured in biceps with a single-fibre multi-electrode: Gath and Stalberg 1975, abstract. */
  static final double PEAK_HZ = 1610;

  /** Where the power is half of the peak's, below: same source. */
  static final double LOWER_HALF_HZ = 980;

  /** Where the power is half of the peak's, above: same source. */
  static final double UPPER_HALF_HZ = 2410;

  /** Gain over one step of distance: Gath and Stalberg 1977, abstract. */
  static final double GAIN_RATIO = 0.55;

  /** Time constant over one step of distance: same source. */
  static final double TIME_CONSTANT_US = 69;

  /** The step of distance: same source. */
  static final double STEP_MM = 0.076;

  private NeedleSpectra() {}

  static List<NeedleDocument.Spectrum> spectra(NeedleAnswer answer, List<Double> distancesMm) {
    List<NeedleDocument.Spectrum> all = new ArrayList<>();
    for (double distanceMm : distancesMm) {
      PotentialSpectrum spectrum = answer.spectrum(distanceMm);
      all.add(
          new NeedleDocument.Spectrum(
              distanceMm, spectrum.peakHz(), spectrum.lowerHalfHz(), spectrum.upperHalfHz()));
    }
    return all;
  }

  static List<NeedleDocument.Radial> radial(NeedleAnswer answer, List<Double> distancesMm) {
    List<NeedleDocument.Radial> all = new ArrayList<>();
    for (double distanceMm : distancesMm) {
      RadialFilter filter =
          RadialFilter.between(answer.spectrum(distanceMm), answer.spectrum(distanceMm + STEP_MM));
      all.add(new NeedleDocument.Radial(distanceMm, filter.gainRatio(), filter.timeConstantUs()));
    }
    return all;
  }

  /** What the page says beside the figures. */
  static List<String> words(List<NeedleAnswer> answers) {
    List<String> words = new ArrayList<>();
    words.add(
        "Measured in biceps with a single-fibre multi-electrode: peak at 1.61 kHz (SD 0.03), half"
            + " power from 0.98 (SD 0.19) to 2.41 kHz (SD 0.53); from one recording surface to the"
            + " next, 76 µm on, a gain of 0.55 and a time constant of 69 µs (Gath and Stålberg"
            + " 1975 and 1977, abstracts; the distances of the fibres are not told).");
    for (NeedleAnswer answer : answers) {
      NeedleDocument d = answer.document();
      words.add(sentence(d));
    }
    words.add(
        "The wave inside the fibre was chosen so that near potentials have the measured peak; what"
            + " distance does to them is the model's own. Over a step the model"
            + " slows a potential more than was measured, and the farther the fibre, the more of"
            + " its amplitude it leaves: measured fibres were near ones, and what lies between two"
            + " fibres of a muscle is not the even medium of this model.");
    return words;
  }

  private static String sentence(NeedleDocument d) {
    if (d.spectra().isEmpty()) {
      return d.needle() + ": no distance outside the fibre was asked for.";
    }
    NeedleDocument.Spectrum near = d.spectra().get(0);
    NeedleDocument.Spectrum far = d.spectra().get(d.spectra().size() - 1);
    NeedleDocument.Radial step = d.radial().get(0);
    return NeedleText.text(
        "%s, in the model: peak at %.2f kHz (%s the measured one), half power from %.2f to %.2f kHz"
            + " at %s mm; at %s mm the peak has fallen to %.2f kHz. A step of 76 µm from %s mm"
            + " leaves %.2f (%s the measured gain) with a time constant of %.0f µs (%s the measured"
            + " one).",
        d.needle(),
        near.peakHz() / 1000,
        beside(near.peakHz(), PEAK_HZ),
        near.lowerHalfHz() / 1000,
        near.upperHalfHz() / 1000,
        NeedleText.number(near.distanceMm()),
        NeedleText.number(far.distanceMm()),
        far.peakHz() / 1000,
        NeedleText.number(step.distanceMm()),
        step.gainRatio(),
        beside(step.gainRatio(), GAIN_RATIO),
        step.timeConstantUs(),
        beside(step.timeConstantUs(), TIME_CONSTANT_US));
  }

  private static String beside(double value, double measured) {
    double percent = 100 * (value / measured - 1);
    return Math.abs(percent) < 1
        ? "as"
        : NeedleText.text("%.0f %% %s", Math.abs(percent), percent > 0 ? "above" : "below");
  }
}
