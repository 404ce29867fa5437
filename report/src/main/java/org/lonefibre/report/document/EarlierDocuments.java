package org.lonefibre.report.document;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** Documents of versions that did not have a property yet: it is filled in as absent or empty. */
final class EarlierDocuments {

  private EarlierDocuments() {}

  /** The same document with what it did not have before. */
  static byte[] completed(byte[] document, JsonMapper mapper) throws IOException {
    String text = new String(document, StandardCharsets.ISO_8859_1);
    boolean summariesWhole = text.contains("\"alternatives\"");
    if (summariesWhole && text.contains("\n  \"chain\" : ")) {
      return document;
    }
    JsonNode root = mapper.readTree(document);
    boolean changed = false;
    if (root instanceof ObjectNode whole && whole.has("studies") && !whole.has("chain")) {
      whole.putNull("chain");
      changed = true;
    }
    for (JsonNode study : root.path("studies")) {
      if (!summariesWhole && study.get("summary") instanceof ObjectNode summary) {
        summary.putNull("progress");
        summary.putArray("alternatives");
        changed = true;
      }
    }
    return changed ? mapper.writeValueAsBytes(root) : document;
  }
}
