/**
 * The report as PDF, made from the same text as the HTML.
 *
 * <ol>
 *   <li>{@code Xhtml} parses the HTML as XML and gives each figure the alternative text that tagged
 *       PDF wants; no document type, entity or outside reference is followed.
 *   <li>{@code EmbeddedFonts} names the fonts; every one that is used is embedded as a subset.
 *   <li>{@link org.lonefibre.report.pdf.PdfReport} lays the pages out: tagged (PDF/UA-1) and for
 *       archives (PDF/A-2a). {@code Repeatable} writes the same bytes for the same text.
 * </ol>
 */
@NullMarked
package org.lonefibre.report.pdf;

import org.jspecify.annotations.NullMarked;
