/**
 * The report as a document, before it takes a shape.
 *
 * <p>An {@link org.lonefibre.analysis.study.Examination} is all that a report knows. It travels in
 * two ways:
 *
 * <ol>
 *   <li>As {@code analysis.json}: {@link org.lonefibre.report.document.AnalysisJson} writes the
 *       records as they are, component names as property names, and reads them back identically.
 *       {@code KebabEnums} spells the enums; {@code Completeness} refuses what the records do not
 *       allow: numbers that are not finite, and absent values where the record promises one.
 *   <li>As a {@link org.lonefibre.report.document.ReportDocument}, built once and only rendered by
 *       the packages that follow: {@code StudyDocuments} arranges one study, {@code SignalEntries}
 *       its signals, {@code Claims} writes what can be claimed, {@code LeftOutList} what was left
 *       out and why, {@code Technique} how it was recorded, {@code FindingLines} the findings in
 *       words.
 * </ol>
 *
 * <p>{@link org.lonefibre.report.document.Rounded} is the only place where a number loses digits,
 * {@link org.lonefibre.report.document.Words} the only place where a code becomes a word.
 */
@NullMarked
package org.lonefibre.report.document;

import org.jspecify.annotations.NullMarked;
