package org.lonefibre.app.needle;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The document lonefibre-needle-1, described by its schema in docs/schema.
 *
 * @param schema its name
 * @param needle name of the needle
 * @param kind its kind
 * @param angleDeg its turn
 * @param highPassHz filter behind contributions, reach and noise
 * @param fibreUm diameter of the fibre
 * @param contact contact of core and shaft
 * @param medium the muscle
 * @param mesh how exact the field is
 * @param coreToReferenceOhm magnitude at 1 kHz
 * @param leadField along the core's normal, at 1 kHz
 * @param potentials of the fibre, without cable
 * @param contributions what each part does
 * @param uptakeMm how far the needle reaches, with cable and filter
 * @param reach the same for any amplitude, by fibre size
 * @param noiseUvRms thermal noise from the high-pass to 10 kHz
 * @param fibresPerPotential shares of spikes by the number of fibres in them
 * @param muscle what it finds in a sample muscle
 * @param spectra of the fibre's potential, without cable and filter
 * @param radial what 76 um more distance does to it
 * @param shouldering what a second fibre does to a potential
 * @param claims what the trade holds beside both needles, if another was named
 * @param seconds that solving took
 * @param compared the same of another needle, if one was named
 */
record NeedleDocument(
    String schema,
    String needle,
    String kind,
    double angleDeg,
    double highPassHz,
    double fibreUm,
    ContactPart contact,
    Medium medium,
    Mesh mesh,
    double coreToReferenceOhm,
    List<Lead> leadField,
    List<Potential> potentials,
    List<Part> contributions,
    Uptake uptakeMm,
    List<Reach> reach,
    double noiseUvRms,
    List<Share> fibresPerPotential,
    MusclePart muscle,
    List<Spectrum> spectra,
    List<Radial> radial,
    Shouldering shouldering,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable List<Claim> claims,
    double seconds,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable NeedleDocument compared) {

  static final String SCHEMA = "lonefibre-needle-1";

  record ContactPart(double ohmM2, @Nullable Double capacitanceFPerM2) {}

  record Medium(double acrossSPerM, double alongSPerM) {}

  record Mesh(int triangles, double rowSumError, double fluxError, double refinementError) {}

  record Lead(double distanceMm, double leadOhm, double leadPhaseDeg) {}

  record Potential(double distanceMm, double highPassHz, double amplitudeUv, double riseTimeUs) {}

  record Part(
      double distanceMm,
      double point,
      double averaging,
      double insulation,
      double metal,
      double cannula,
      double contact,
      double cable,
      double filter,
      double total) {}

  record Uptake(@Nullable Double at200Uv, @Nullable Double at50Uv) {}

  record Reach(double fibreUm, double amplitudeUv, @Nullable Double distanceMm) {}

  record Share(int fibres, double share) {}

  record Spectrum(double distanceMm, double peakHz, double lowerHalfHz, double upperHalfHz) {}

  record Radial(double distanceMm, double gainRatio, double timeConstantUs) {}

  record Shouldering(double distanceMm, double jitterUs, List<Shoulder> cells) {}

  record Shoulder(double sizeRatio, double delayUs, String appearance, double biasRatio) {}

  record Claim(
      String code,
      String text,
      String smallSurface,
      String largeSurface,
      String verdict,
      String explanation) {}

  NeedleDocument with(List<Claim> newClaims, NeedleDocument other) {
    return new NeedleDocument(
        schema,
        needle,
        kind,
        angleDeg,
        highPassHz,
        fibreUm,
        contact,
        medium,
        mesh,
        coreToReferenceOhm,
        leadField,
        potentials,
        contributions,
        uptakeMm,
        reach,
        noiseUvRms,
        fibresPerPotential,
        muscle,
        spectra,
        radial,
        shouldering,
        newClaims,
        seconds,
        other);
  }
}
