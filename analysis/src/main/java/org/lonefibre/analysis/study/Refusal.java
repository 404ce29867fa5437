package org.lonefibre.analysis.study;

/**
 * A file that was refused.
 *
 * @param file name of the file
 * @param place where in it
 * @param reason what was expected, what was found, what to do
 */
public record Refusal(String file, String place, String reason) {}
