package org.lonefibre.report.fhir;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.StudyDocument;

/**
 * A result as a FHIR bundle of type collection: one DiagnosticReport, an Observation for each study
 * and each signal, the program as Device, a Provenance that carries the seal, and the PDF as
 * Binary.
 *
 * <ul>
 *   <li>Codes of published systems only where their source was read; the others are local ({@code
 *       docs/fhir}).
 *   <li>A signal that is not in the statistics carries a reason and no jitter.
 *   <li>The subject is named by its code; no Patient is made up.
 *   <li>Numbers have the digits of the printed report.
 *   <li>The same result always gives the same bundle with the same identities, so that sending it
 *       again makes no second report.
 * </ul>
 *
 * <p>Thread rule: no state.
 */
public final class FhirBundle {

  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  private final Circumstances circumstances;
  private final String seed;
  private final ArrayNode entries;
  private final ObjectNode bundle;

  private FhirBundle(Circumstances circumstances) {
    this.circumstances = circumstances;
    this.seed = seed(circumstances);
    this.bundle = Elements.resource("Bundle");
    bundle.put("type", "collection").put("timestamp", circumstances.issued());
    this.entries = bundle.putArray("entry");
  }

  /**
   * The bundle as JSON.
   *
   * @param closing what people added
   * @param pdf the printed report
   * @throws IllegalArgumentException if a number is not finite, or {@code createdAt} is no time
   */
  public static String of(
      FhirVersion version, Examination examination, Closing closing, byte[] pdf) {
    FhirBundle bundle = new FhirBundle(new Circumstances(version, examination, closing));
    bundle.fill(pdf);
    return text(bundle.bundle);
  }

  static String text(ObjectNode resource) {
    try {
      return MAPPER.writeValueAsString(resource) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private void fill(byte[] pdf) {
    Examination examination = circumstances.examination();
    ReportDocument document = ReportDocument.of(examination, circumstances.closing());
    String report = url("report");
    String device = url("device");
    String binary = url("binary");
    List<String> studies = new ArrayList<>();
    List<ObjectNode> observations = new ArrayList<>();
    List<String> urls = new ArrayList<>();
    for (StudyDocument study : document.studies()) {
      String studyUrl = url("study " + study.number());
      List<String> signals = new ArrayList<>();
      for (SignalEntry signal : study.signals()) {
        String signalUrl = url("study " + study.number() + " signal " + signal.number());
        signals.add(signalUrl);
        urls.add(signalUrl);
        observations.add(SignalObservation.of(circumstances, study, signal, device));
      }
      studies.add(studyUrl);
      urls.add(studyUrl);
      observations.add(
          StudyObservation.of(
              circumstances,
              study,
              examination.studies().get(study.number() - 1),
              device,
              signals));
    }
    add(report, ReportResource.of(circumstances, document, studies, binary, pdf));
    for (int i = 0; i < urls.size(); i++) {
      add(urls.get(i), observations.get(i));
    }
    add(device, Companions.device(circumstances, document));
    urls.add(0, report);
    add(url("provenance"), Companions.provenance(circumstances, urls, device));
    add(binary, Elements.resource("Binary").put("contentType", "application/pdf").put("data", pdf));
  }

  private void add(String url, ObjectNode resource) {
    ObjectNode entry = Elements.object().put("fullUrl", url);
    entry.set("resource", resource);
    entries.add(entry);
  }

  private String url(String what) {
    return "urn:uuid:" + UUID.nameUUIDFromBytes((seed + what).getBytes(StandardCharsets.UTF_8));
  }

  private static String seed(Circumstances circumstances) {
    ByteArrayOutputStream text = new ByteArrayOutputStream(1 << 20);
    try {
      AnalysisJson.write(circumstances.examination(), text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    text.writeBytes(circumstances.closing().toString().getBytes(StandardCharsets.UTF_8));
    return UUID.nameUUIDFromBytes(text.toByteArray()).toString();
  }
}
