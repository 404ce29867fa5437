package org.lonefibre.report.figure;

/**
 * A figure.
 *
 * @param svg an SVG element, well-formed and without outside references
 * @param summary what it shows in one or two sentences
 */
public record Figure(String svg, String summary) {}
