package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.List;
import org.lonefibre.report.document.PlainText;

/** The data types of the standard that the resources are made of. */
final class Elements {

  static final String UCUM = "http://unitsofmeasure.org";

  private static final JsonNodeFactory NODES = JsonNodeFactory.withExactBigDecimals(true);

  private Elements() {}

  static ObjectNode object() {
    return NODES.objectNode();
  }

  static ObjectNode resource(String type) {
    return object().put("resourceType", type);
  }

  static ArrayNode listOf(ObjectNode... items) {
    return NODES.arrayNode().addAll(List.of(items));
  }

  static ObjectNode coding(String system, String code) {
    return object().put("system", system).put("code", code);
  }

  static ObjectNode concept(ObjectNode coding) {
    ObjectNode concept = object();
    concept.set("coding", listOf(coding));
    return concept;
  }

  static ObjectNode concept(LocalCode code) {
    return concept(coding(LocalCode.SYSTEM, code.code()).put("display", code.display()));
  }

  static ObjectNode reference(String url) {
    return object().put("reference", url);
  }

  static ObjectNode display(String text) {
    return object().put("display", text(text));
  }

  static ObjectNode words(String text) {
    return object().put("text", text(text));
  }

  /** A quantity with the digits it was rounded to. */
  static ObjectNode quantity(String digits, String unit, String code) {
    ObjectNode quantity = object();
    quantity.set("value", NODES.numberNode(new BigDecimal(digits)));
    return quantity.put("unit", unit).put("system", UCUM).put("code", code);
  }

  static ObjectNode microseconds(String digits) {
    return quantity(digits, "µs", "us");
  }

  /** Text that the standard allows: never empty, no control character, no blank at its ends. */
  static String text(String text) {
    String plain = PlainText.of(text).strip();
    return plain.isEmpty() ? "-" : plain;
  }

  /** The narrative that a reader without any knowledge of the codes sees. */
  static ObjectNode narrative(List<String> lines) {
    StringBuilder div = new StringBuilder("<div xmlns=\"http://www.w3.org/1999/xhtml\">");
    for (String line : lines) {
      div.append("<p>").append(escaped(text(line))).append("</p>");
    }
    return object().put("status", "generated").put("div", div.append("</div>").toString());
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
