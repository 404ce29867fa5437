package org.lonefibre.report.fhir;

import java.util.Locale;

/**
 * The local code system: no published code was found in a source that could be read for these, and
 * a wrong code is worse than a local one. Its list stands in {@code docs/fhir}.
 */
enum LocalCode {
  PAIR_JITTER("Jitter of a fibre pair"),
  END_PLATE_JITTER("Jitter of a stimulated end-plate"),
  MEAN_JITTER("Mean jitter of the signals in the statistics"),
  MEDIAN_JITTER("Median jitter of the signals in the statistics"),
  MEAN_CONSECUTIVE_DIFFERENCE("Mean consecutive difference (MCD)"),
  MEAN_SORTED_DIFFERENCE("Mean sorted-data difference (MSD)"),
  TIMING_FLOOR("Jitter that arrival errors alone would give"),
  CORRECTED_JITTER("Jitter with the timing floor taken off"),
  CORRECTED_JITTER_LOW("Lower end of the 95 % interval of the corrected jitter"),
  CORRECTED_JITTER_HIGH("Upper end of the 95 % interval of the corrected jitter"),
  MEAN_INTERVAL("Mean inter-potential interval"),
  MEAN_LATENCY("Mean stimulus latency"),
  SWEEPS("Sweeps"),
  PRESENT_SWEEPS("Sweeps with the potential present"),
  BLOCKED_SWEEPS("Blocked sweeps"),
  DIFFERENCES("Consecutive differences the jitter rests on"),
  BLOCKING("Blocking"),
  FIRING("Rate of discharges or stimuli, in words"),
  MEAN_RATE("Mean rate of discharges or stimuli"),
  AMPLITUDE("Amplitude of a potential"),
  GRADE("Grade of a potential"),
  STANDING("How the signal stands in the statistics"),
  SIGNALS("Signals in the statistics"),
  SIGNALS_ABOVE_LIMIT("Signals above the limit of a single signal"),
  SIGNALS_WITH_BLOCKING("Signals with blocking"),
  SIGNALS_LEFT_OUT("Signals left out"),
  SIGNALS_UNMEASURABLE("Signals that could not be measured"),
  LIMIT_SET("Limit set"),
  SKIN_TEMPERATURE("Skin temperature over the muscle"),
  AGE("Age"),
  MEDICATION("Medication with time of last dose, as declared"),
  INTEGRITY_SEAL("Integrity seal (Ed25519), not a qualified electronic signature");

  /** Identity of the code system: an OID made of a random UUID, so that nobody has to issue it. */
  static final String SYSTEM = "urn:oid:2.25.45689016687090796424195289343763452582";

  /** Naming system of the codes that laboratories give to the persons they examine. */
  static final String SUBJECTS = SYSTEM + ".1";

  /** Naming system of SHA-256 hashes of files and texts. */
  static final String HASHES = SYSTEM + ".2";

  private final String display;

  LocalCode(String display) {
    this.display = display;
  }

  String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  String display() {
    return display;
  }
}
