package org.lonefibre.report.fhir;

/** Releases of the standard that bundles are written in. */
public enum FhirVersion {
  /** Release 4 (4.0.1), what most hospitals run. */
  R4,
  /** Release 5 (5.0.0). */
  R5
}
