package org.lonefibre.report.document;

import org.lonefibre.signal.recording.Severity;

/**
 * A finding in words.
 *
 * @param where site, potential or pair that it concerns; empty for the study
 * @param severity how much it matters
 * @param title its code in words
 * @param text its sentences
 */
public record FindingLine(String where, Severity severity, String title, String text) {}
