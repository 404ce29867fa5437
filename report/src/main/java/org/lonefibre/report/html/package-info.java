/**
 * The report as one HTML file that needs nothing else.
 *
 * <ol>
 *   <li>{@code ReportView} joins the document with its figures and the style.
 *   <li>The templates in {@code src/main/jte} become classes of this package when the module is
 *       built; they escape every text.
 *   <li>{@code CssText} writes the identity into the margin of each page.
 *   <li>{@link org.lonefibre.report.html.HtmlReport} is the door. Its output is well-formed XML, so
 *       that the same text makes the PDF.
 *   <li>{@link org.lonefibre.report.html.FigurePage} is a page of tables and figures that is no
 *       examination.
 * </ol>
 */
@NullMarked
package org.lonefibre.report.html;

import org.jspecify.annotations.NullMarked;
