package org.lonefibre.report.html;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.List;
import org.lonefibre.report.figure.Figure;

/**
 * A page of tables and figures that is no examination: one HTML file, no script, no outside
 * reference.
 *
 * @param title its heading
 * @param lead one or two sentences below it
 * @param sections its parts in order
 * @param notes what a reader must know, at the end
 */
public record FigurePage(String title, String lead, List<Section> sections, List<String> notes) {

  private static final int WORDY = 40;

  /**
   * A part of a page: words, figures, a table, or several of them.
   *
   * @param heading its heading
   * @param words its paragraphs, before figures and table
   * @param figures its figures
   * @param columns names of the columns; empty without a table
   * @param rows cells, as many as columns each
   */
  public record Section(
      String heading,
      List<String> words,
      List<Figure> figures,
      List<String> columns,
      List<List<String>> rows) {

    /** Copies the lists. */
    public Section {
      words = List.copyOf(words);
      figures = List.copyOf(figures);
      columns = List.copyOf(columns);
      rows = List.copyOf(rows);
    }

    /** Whether its table holds sentences rather than numbers. */
    public boolean isWordy() {
      return rows.stream().flatMap(List::stream).anyMatch(cell -> cell.length() > WORDY);
    }
  }

  /** Copies the lists. */
  public FigurePage {
    sections = List.copyOf(sections);
    notes = List.copyOf(notes);
  }

  /** The HTML text. */
  public String render() {
    TemplateEngine templates =
        TemplateEngine.createPrecompiled(
            null, ContentType.Html, FigurePage.class.getClassLoader(), "org.lonefibre.report.html");
    StringOutput output = new StringOutput(1 << 18);
    templates.render("figures.jte", this, output);
    return PlainText.of(output.toString());
  }
}
