package org.lonefibre.analysis.controls;

/**
 * Limits at an age, by quantile regression over the subjects.
 *
 * @param fromAgeYears age at the head of the column
 * @param belowAgeYears age it no longer holds for
 * @param centreUs limit of the centre
 * @param individualUs limit of a single signal
 */
public record AgeLimit(int fromAgeYears, int belowAgeYears, double centreUs, double individualUs) {}
