package org.lonefibre.report.document;

/**
 * A number that opens the report.
 *
 * @param name what it is
 * @param figure the number as shown
 * @param unit its unit; empty if it has none
 * @param remark how it stands to its limit, or how many it rests on
 */
public record Headline(String name, String figure, String unit, String remark) {}
