package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.ReportDocument;

/** The program as a device, with its caution; where the result comes from, with the seal. */
final class Companions {

  private Companions() {}

  static ObjectNode device(Circumstances circumstances, ReportDocument document) {
    Producer producer = circumstances.examination().producedBy();
    ObjectNode device = Elements.resource("Device");
    device.set(
        "text",
        Elements.narrative(
            List.of(producer.name() + " " + producer.version(), document.cautions().get(0))));
    ObjectNode name = Elements.object().put("type", "user-friendly-name");
    if (circumstances.version() == FhirVersion.R4) {
      name.put("name", Elements.text(producer.name()));
      device.set("deviceName", Elements.listOf(name));
    } else {
      name.put("value", Elements.text(producer.name()));
      device.set("name", Elements.listOf(name));
    }
    device.set(
        "version",
        Elements.listOf(Elements.object().put("value", Elements.text(producer.version()))));
    ArrayNode notes = device.putArray("note");
    document.cautions().forEach(caution -> notes.add(Elements.words(caution)));
    return device;
  }

  static ObjectNode provenance(
      Circumstances circumstances, List<String> targets, String deviceUrl) {
    Closing.Seal seal = circumstances.closing().seal();
    ObjectNode provenance = Elements.resource("Provenance");
    ArrayNode target = provenance.putArray("target");
    targets.forEach(url -> target.add(Elements.reference(url)));
    provenance.put("recorded", circumstances.issued());
    ArrayNode agents = provenance.putArray("agent");
    agents.add(agent("assembler", Elements.reference(deviceUrl)));
    if (seal != null) {
      agents.add(agent("verifier", Elements.display(seal.signer())));
    }
    putSources(provenance, circumstances.examination(), seal);
    if (seal != null && !seal.changedSince()) {
      ObjectNode signature = Elements.object();
      signature.set(
          "type",
          Elements.listOf(
              Elements.coding(LocalCode.SYSTEM, LocalCode.INTEGRITY_SEAL.code())
                  .put("display", LocalCode.INTEGRITY_SEAL.display())));
      signature.put("when", circumstances.issued());
      signature.set("who", Elements.display(seal.signer()));
      signature.put("sigFormat", "application/octet-stream").put("data", seal.value());
      provenance.set("signature", Elements.listOf(signature));
    }
    return provenance;
  }

  private static ObjectNode agent(String type, ObjectNode who) {
    ObjectNode agent = Elements.object();
    agent.set(
        "type",
        Elements.concept(
            Elements.coding(
                "http://terminology.hl7.org/CodeSystem/provenance-participant-type", type)));
    agent.set("who", who);
    return agent;
  }

  /** The raw files and the sealed text, by their hashes. */
  private static void putSources(
      ObjectNode provenance, Examination examination, Closing.@Nullable Seal seal) {
    Map<String, String> sources = new LinkedHashMap<>();
    examination
        .studies()
        .forEach(
            study ->
                study.recordings().forEach(r -> sources.put(r.sha256(), "recording " + r.file())));
    if (seal != null) {
      sources.put(
          seal.sha256(), "sealed text of signed version " + seal.version() + ": " + seal.meaning());
    }
    if (sources.isEmpty()) {
      return;
    }
    ArrayNode entities = provenance.putArray("entity");
    sources.forEach(
        (hash, name) -> {
          ObjectNode what = Elements.display(name);
          ObjectNode identifier = Elements.object();
          identifier.put("system", LocalCode.HASHES).put("value", hash);
          what.set("identifier", identifier);
          ObjectNode entity = Elements.object().put("role", "source");
          entity.set("what", what);
          entities.add(entity);
        });
  }
}
