package org.lonefibre.app.needle;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.Tip;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.leadfield.Contact;
import org.lonefibre.model.leadfield.LeadFieldSettings;

/**
 * What is asked of a needle.
 *
 * @param needle the needle
 * @param settings medium and angle; contacts are those below
 * @param contactOhmM2 resistive contact of core and shaft
 * @param contactFPerM2 capacitance of the contact instead; null for none
 * @param distancesMm from the core along its normal, rising
 * @param highPassHz filter of what is recorded
 * @param fibre the fibre
 * @param spikeShareRatio what part of a spike's steepest slope makes a fibre count
 * @param spikeHighPassesHz further filters for which fibres in a spike are counted
 * @param reachUv amplitudes whose distance is asked for
 */
record NeedleQuestion(
    Needle needle,
    LeadFieldSettings settings,
    double contactOhmM2,
    @Nullable Double contactFPerM2,
    List<Double> distancesMm,
    double highPassHz,
    FibreGeometry fibre,
    double spikeShareRatio,
    List<Double> spikeHighPassesHz,
    List<Double> reachUv) {

  static final List<Double> USUAL_REACH_UV = List.of(200.0, 50.0);

  NeedleQuestion {
    distancesMm = List.copyOf(distancesMm);
    spikeHighPassesHz = List.copyOf(spikeHighPassesHz);
    reachUv = List.copyOf(reachUv);
  }

  /** The filter that the trade puts after a kind of needle: 500 Hz or 1 kHz, common practice. */
  static double usualHighPassHz(Needle needle) {
    return needle.tip() instanceof Tip.SidePort ? 500 : 1000;
  }

  LeadFieldSettings ideal() {
    return settings.withContacts(Contact.IDEAL, Contact.IDEAL);
  }
}
