package org.lonefibre.app.needle;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a needle finds in a sample muscle, in the document.
 *
 * @param preset the muscle: healthy, of our own making
 * @param shareRatio what part of a spike's steepest slope makes a fibre count
 * @param leastUv smallest spike
 * @param spikes how many were found at random places
 * @param oneFibreRatio share of spikes that are one fibre
 * @param fibreDensityRatio by the trade's rule, the first potential included
 * @param byHighPass the same for further filters, if they were asked for
 * @param background distant fibres
 */
record MusclePart(
    String preset,
    double shareRatio,
    double leastUv,
    int spikes,
    double oneFibreRatio,
    double fibreDensityRatio,
    List<Counted> byHighPass,
    BackgroundPart background) {

  MusclePart {
    byHighPass = List.copyOf(byHighPass);
  }

  /** Fibres in a spike through one filter. */
  record Counted(
      double highPassHz,
      int spikes,
      List<NeedleDocument.Share> fibresPerPotential,
      double fibreDensityRatio) {

    Counted {
      fibresPerPotential = List.copyOf(fibresPerPotential);
    }
  }

  /**
   * What distant fibres give, and what it costs to be rid of it.
   *
   * @param beyondMm fibres nearer to the core are left out
   * @param targetUv root mean square wanted
   * @param lowestHighPassHz what brings it there; 0 if it is there, null if 5 kHz do not
   * @param nearMm where the near fibre lies
   * @param cuts one a cut-off
   */
  record BackgroundPart(
      double beyondMm,
      double targetUv,
      @Nullable Double lowestHighPassHz,
      double nearMm,
      List<Cut> cuts) {

    BackgroundPart {
      cuts = List.copyOf(cuts);
    }
  }

  /**
   * One filter.
   *
   * @param highPassHz its cut-off
   * @param backgroundUv root mean square of distant fibres
   * @param thermalUv of the needle, to 10 kHz
   * @param nearUv amplitude of the near potential
   * @param keptRatio the same over what it is unfiltered
   * @param timingErrorUs background and thermal noise over the near potential's steepest slope
   */
  record Cut(
      double highPassHz,
      double backgroundUv,
      double thermalUv,
      double nearUv,
      double keptRatio,
      double timingErrorUs) {}
}
