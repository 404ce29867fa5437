package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.EnumSet;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.dicom.EncapsulatedPdf;
import org.lonefibre.report.dicom.Leaving;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.report.dicom.PacsFault;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Language;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;

/**
 * The report on its way to the archive this launch was given; without one nothing can be sent.
 *
 * <p>What would leave is shown first; what a person agreed to is the instance that was shown, or
 * nothing. Each attempt has its entry in the record of changes.
 */
public final class SendingRoutes {

  private final Desk desk;
  private final @Nullable Pacs archive;

  /**
   * @param archive where reports go; null for nowhere
   */
  public SendingRoutes(Desk desk, @Nullable Pacs archive) {
    this.desk = desk;
    this.archive = archive;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.post("/api/studies/{study}/leaving", this::leaving);
    routes.post("/api/studies/{study}/sendings", this::send);
  }

  /** The order that is answered. */
  record Order(String accessionNumber) {}

  /** The order, and the instance that was shown. */
  record Agreed(String accessionNumber, String instanceUid) {}

  private record Parcel(Examination examination, Closing closing, EncapsulatedPdf report) {}

  private void leaving(Context context) throws IOException {
    Pacs pacs = archive();
    Parcel parcel =
        parcel(
            context.pathParam("study"), Json.read(context.body(), Order.class).accessionNumber());
    ObjectNode answer = Json.object();
    answer.put("instanceUid", parcel.report().instanceUid());
    ArrayNode lines = answer.putArray("lines");
    Leaving.of(pacs, parcel.examination(), parcel.closing(), parcel.report())
        .forEach(line -> lines.add(Json.tree(line)));
    LocalServer.json(context, answer);
  }

  private void send(Context context) throws IOException {
    Pacs pacs = archive();
    String id = context.pathParam("study");
    String person = Person.of(context);
    Agreed agreed = Json.read(context.body(), Agreed.class);
    EncapsulatedPdf report = parcel(id, agreed.accessionNumber()).report();
    if (!report.instanceUid().equals(agreed.instanceUid())) {
      throw new Refusal(409, "The study was changed after it was shown: look again first.");
    }
    String what = "DICOM " + report.instanceUid() + " to " + pacs.address();
    try {
      pacs.store(report);
    } catch (PacsFault e) {
      desk.store().studies().noteSending(id, what, "not confirmed: " + e.getMessage(), person);
      throw new Refusal(502, "Not sent: " + e.getMessage());
    }
    desk.store().studies().noteSending(id, what, "the archive says that it has it", person);
    LocalServer.json(context, Json.object().put("instanceUid", report.instanceUid()));
  }

  private Pacs archive() {
    if (archive == null) {
      throw new Refusal(
          409, "No archive is set: start the workbench with --pacs and its address to send.");
    }
    return archive;
  }

  private Parcel parcel(String id, String accessionNumber) throws IOException {
    OpenStudy study = desk.open(id);
    study.requireGrades();
    Examination result = study.current();
    if (result == null) {
      throw new Refusal(409, "There is no result yet: import recordings first.");
    }
    Closing closing =
        Exports.closing(
            study, desk.store().studies().notes(id), desk.store().studies().signatures().list(id));
    byte[] pdf =
        Objects.requireNonNull(
            new ReportWriter()
                .contents(result, closing, Language.ENGLISH, EnumSet.of(ReportFormat.PDF))
                .get("report.pdf"));
    try {
      return new Parcel(
          result, closing, EncapsulatedPdf.of(result, closing, pdf, accessionNumber.strip()));
    } catch (IllegalArgumentException e) {
      throw new Refusal(400, "An accession number has at most 16 characters, no backslash.");
    }
  }
}
