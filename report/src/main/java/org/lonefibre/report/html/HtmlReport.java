package org.lonefibre.report.html;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.lonefibre.report.document.PlainText;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.document.Words;

/**
 * Renders a report as one HTML file: no script, no outside reference, well-formed XML, printable
 * with page numbers. Text from files is escaped; characters that no document may hold become
 * U+FFFD.
 *
 * <p>Safe for use by several threads.
 */
public final class HtmlReport {

  /** Name of the entry in the head that holds the UTC time of the result. */
  public static final String MADE_AT = "dcterms.created";

  private final TemplateEngine templates;
  private final String style;

  /** Loads the templates and the style, which are part of the program. */
  public HtmlReport() {
    this.templates =
        TemplateEngine.createPrecompiled(
            null, ContentType.Html, HtmlReport.class.getClassLoader(), "org.lonefibre.report.html");
    this.style = resource("report.css");
  }

  /** The HTML text of a report. */
  public String render(ReportDocument document) {
    ReportView view =
        new ReportView(
            document, document.studies().stream().map(StudyView::of).toList(), margins(document));
    StringOutput output = new StringOutput(1 << 20);
    templates.render("report.jte", view, output);
    return PlainText.of(output.toString());
  }

  private String margins(ReportDocument document) {
    Words words = document.words();
    return style
        .replace("\"IDENTITY\"", CssText.quoted(document.identity()))
        .replace("\"TITLE\"", CssText.quoted(words.say("page.heading")))
        .replace("\"FOOT\"", CssText.quoted(words.say("margin.foot")))
        .replace("\"PAGE \"", CssText.quoted(words.say("margin.page") + " "))
        .replace("\" OF \"", CssText.quoted(" " + words.say("margin.of") + " "));
  }

  private static String resource(String name) {
    try (InputStream in =
        Objects.requireNonNull(HtmlReport.class.getResourceAsStream(name), name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + name, e);
    }
  }
}
