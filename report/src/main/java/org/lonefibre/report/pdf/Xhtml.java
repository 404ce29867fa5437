package org.lonefibre.report.pdf;

import java.io.IOException;
import java.io.StringReader;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.xml.sax.helpers.DefaultHandler;

/** Parses the HTML of a report as XML. */
final class Xhtml {

  private static final String DOCTYPE = "<!DOCTYPE html>";

  private Xhtml() {}

  static Document parsed(String html) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setNamespaceAware(true);
      factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      DocumentBuilder builder = factory.newDocumentBuilder();
      builder.setErrorHandler(new DefaultHandler()); // the default one writes to standard error
      Document document =
          builder.parse(new InputSource(new StringReader(html.replaceFirst(DOCTYPE, "").strip())));
      nameFigures(document);
      return document;
    } catch (SAXException | IOException | ParserConfigurationException e) {
      throw new IllegalStateException("the report is not well-formed: " + e.getMessage(), e);
    }
  }

  private static void nameFigures(Document document) {
    NodeList figures = document.getElementsByTagNameNS("http://www.w3.org/2000/svg", "svg");
    for (int i = 0; i < figures.getLength(); i++) {
      if (figures.item(i) instanceof Element figure) {
        figure.setAttribute("alt", figure.getAttribute("aria-label"));
      }
    }
  }
}
