package org.lonefibre.report;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.html.HtmlReport;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** Reads documents back with parsers that know nothing of how they were made. */
public final class ReportReader {

  private ReportReader() {}

  /** The HTML of an examination. */
  public static String html(Examination examination) {
    return new HtmlReport().render(ReportDocument.of(examination));
  }

  /** The HTML as a tree; it must be well-formed. */
  public static Document tree(String html) {
    try {
      String text = html.replaceFirst("<!DOCTYPE html>", "").strip();
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(text)));
    } catch (SAXException | IOException | ParserConfigurationException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Elements of a name in the order of the text. */
  public static List<Element> elements(Document tree, String name) {
    return elements(tree.getDocumentElement(), name);
  }

  /** Elements of a name within another. */
  public static List<Element> elements(Element within, String name) {
    List<Element> found = new ArrayList<>();
    NodeList all = within.getElementsByTagName(name);
    for (int i = 0; i < all.getLength(); i++) {
      found.add((Element) all.item(i));
    }
    return found;
  }

  /** Elements of a name and a class. */
  public static List<Element> elements(Document tree, String name, String style) {
    return elements(tree, name).stream()
        .filter(e -> List.of(e.getAttribute("class").split(" ")).contains(style))
        .toList();
  }

  /** The cells of the body of the table of signals, row by row. */
  public static List<List<String>> signalRows(Document tree) {
    List<List<String>> rows = new ArrayList<>();
    for (Element table : elements(tree, "table", "signals")) {
      Element body = elements(table, "tbody").get(0);
      for (Element row : elements(body, "tr")) {
        rows.add(elements(row, "td").stream().map(cell -> cell.getTextContent().strip()).toList());
      }
    }
    return rows;
  }

  /** The lines of a table in CSV. */
  public static List<NamedCsvRecord> lines(String csv) {
    try (CsvReader<NamedCsvRecord> reader = CsvReader.builder().ofNamedCsvRecord(csv)) {
      return reader.stream().toList();
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
