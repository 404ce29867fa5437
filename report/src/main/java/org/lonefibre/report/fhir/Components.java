package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import org.lonefibre.report.document.Rounded;

/** The parts of an observation; what has no value is left out. */
final class Components {

  private final ArrayNode list = JsonNodeFactory.instance.arrayNode();

  ArrayNode list() {
    return list;
  }

  Components jitter(LocalCode code, @Nullable Double jitterUs) {
    return jitterUs == null
        ? this
        : add(code, "valueQuantity", Elements.microseconds(Rounded.jitter(jitterUs)));
  }

  Components interval(LocalCode code, @Nullable Double intervalUs) {
    return intervalUs == null
        ? this
        : add(code, "valueQuantity", Elements.microseconds(Rounded.interval(intervalUs)));
  }

  Components quantity(
      LocalCode code, @Nullable Double value, int decimals, String unit, String ucum) {
    return value == null
        ? this
        : add(
            code,
            "valueQuantity",
            Elements.quantity(Rounded.decimals(value, decimals), unit, ucum));
  }

  Components count(LocalCode code, @Nullable Integer count) {
    if (count != null) {
      list.add(of(code).put("valueInteger", count));
    }
    return this;
  }

  Components words(LocalCode code, @Nullable String text) {
    if (text != null && !text.isBlank()) {
      list.add(of(code).put("valueString", Elements.text(text)));
    }
    return this;
  }

  private Components add(LocalCode code, String name, ObjectNode value) {
    ObjectNode component = of(code);
    component.set(name, value);
    list.add(component);
    return this;
  }

  private static ObjectNode of(LocalCode code) {
    ObjectNode component = Elements.object();
    component.set("code", Elements.concept(code));
    return component;
  }
}
