package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** A needle document as lines for a terminal. */
final class NeedleText {

  private NeedleText() {}

  static List<String> lines(NeedleDocument d) {
    List<String> lines = new ArrayList<>();
    lines.add(
        text(
            "%s (%s) at %s degrees: %s between core and reference at 1 kHz",
            d.needle(), d.kind(), number(d.angleDeg()), ohm(d.coreToReferenceOhm())));
    lines.add(
        text(
            "mesh of %d triangles: rows miss -1/2 by %.0e, currents by %.1f %%, refining changes"
                + " %.1f %%",
            d.mesh().triangles(),
            d.mesh().rowSumError(),
            100 * d.mesh().fluxError(),
            100 * d.mesh().refinementError()));
    lines.add("");
    lines.add("distance mm   lead kOhm   phase deg");
    for (NeedleDocument.Lead lead : d.leadField()) {
      lines.add(
          text(
              "%11s %11.4g %11.1f",
              number(lead.distanceMm()), lead.leadOhm() / 1000, lead.leadPhaseDeg()));
    }
    lines.add("");
    lines.add(text("fibre of %s um", number(d.fibreUm())));
    lines.add("distance mm  high-pass Hz  amplitude uV  rise time us");
    for (NeedleDocument.Potential p : d.potentials()) {
      lines.add(
          text(
              "%11s %13s %13.4g %13.0f",
              number(p.distanceMm()), number(p.highPassHz()), p.amplitudeUv(), p.riseTimeUs()));
    }
    lines.add("");
    lines.add(
        text("what each part does to the amplitude (high-pass %s Hz)", number(d.highPassHz())));
    lines.add(
        "distance mm  point uV averaging insulation  metal cannula contact  cable filter  total uV");
    for (NeedleDocument.Part c : d.contributions()) {
      lines.add(
          text(
              "%11s %9.4g %9.3f %10.3f %6.3f %7.3f %7.3f %6.3f %6.3f %9.4g",
              number(c.distanceMm()),
              c.point(),
              c.averaging(),
              c.insulation(),
              c.metal(),
              c.cannula(),
              c.contact(),
              c.cable(),
              c.filter(),
              c.total()));
    }
    lines.add("");
    lines.add(
        text(
            "reach: 200 uV at %s, 50 uV at %s; thermal noise %.1f uV rms",
            reach(d.uptakeMm().at200Uv()), reach(d.uptakeMm().at50Uv()), d.noiseUvRms()));
    for (NeedleDocument.Reach r : d.reach()) {
      lines.add(
          text(
              "  a fibre of %s um gives %s uV at %s",
              number(r.fibreUm()), number(r.amplitudeUv()), reach(r.distanceMm())));
    }
    lines.add(shares(d.highPassHz(), d.fibresPerPotential(), d.muscle().fibreDensityRatio()));
    for (MusclePart.Counted c : d.muscle().byHighPass()) {
      lines.add(shares(c.highPassHz(), c.fibresPerPotential(), c.fibreDensityRatio()));
    }
    lines.add(
        text(
            "background of distant fibres %.1f uV rms unfiltered",
            d.muscle().background().cuts().get(0).backgroundUv()));
    lines.add(
        "Absolute amplitudes are uncertain by perhaps half (homogeneous muscle); ratios and shapes"
            + " are the message.");
    return lines;
  }

  private static String shares(
      double highPassHz, List<NeedleDocument.Share> all, double fibreDensityRatio) {
    StringBuilder shares =
        new StringBuilder(
            text("fibres in a spike of 200 uV or more, high-pass %s Hz:", number(highPassHz)));
    for (NeedleDocument.Share share : all) {
      shares.append(
          text(
              " %d%s at %.0f %%",
              share.fibres(), share.fibres() == all.size() ? " or more" : "", 100 * share.share()));
    }
    return shares.append(text("; fibre density %.2f", fibreDensityRatio)).toString();
  }

  static String ohm(double ohm) {
    return ohm >= 1e6
        ? text("%.3g MOhm", ohm / 1e6)
        : ohm >= 1000 ? text("%.4g kOhm", ohm / 1000) : text("%.4g ohm", ohm);
  }

  static String reach(@Nullable Double mm) {
    return mm == null ? "no distance" : text("%.2f mm", mm);
  }

  static String number(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e9
        ? Long.toString((long) value)
        : Double.toString(value);
  }

  static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
