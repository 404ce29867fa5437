package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** The local code system as a resource of the standard, for the terminology of a hospital. */
public final class LocalCodes {

  private LocalCodes() {}

  /** The CodeSystem as JSON; it has the same form in both releases. */
  public static String json() {
    ObjectNode system = Elements.resource("CodeSystem");
    system
        .put("url", LocalCode.SYSTEM)
        .put("version", "1")
        .put("name", "LonefibreCodes")
        .put("title", "Lonefibre: measures of a jitter study")
        .put("status", "active")
        .put("experimental", false)
        .put("description", "Measures of single-fibre EMG for which no published code was found.")
        .put("caseSensitive", true)
        .put("content", "complete")
        .put("count", LocalCode.values().length);
    ArrayNode concepts = system.putArray("concept");
    for (LocalCode code : LocalCode.values()) {
      concepts.add(
          Elements.object()
              .put("code", code.code())
              .put("display", code.display())
              .put("definition", code.display()));
    }
    return FhirBundle.text(system);
  }
}
