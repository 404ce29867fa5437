package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.density.DensitySite;
import org.lonefibre.analysis.density.FibreDensity;
import org.lonefibre.analysis.reference.BeforeAfter;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;

/** What is seen beside the jitter of a study: fibre density, and change since another day. */
public final class CourseRoutes {

  private static final String NEEDLE = "single-fibre";

  private final Desk desk;

  /** Routes to the studies of a desk. */
  public CourseRoutes(Desk desk) {
    this.desk = desk;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/studies/{study}/parts/{part}/density", this::density);
    routes.get("/api/studies/{study}/others", this::others);
    routes.get("/api/studies/{study}/change/{other}", this::change);
  }

  private void density(Context context) throws IOException {
    Examination current = result(context.pathParam("study"));
    String number = context.pathParam("part");
    if (!number.matches("[0-9]{1,4}") || Integer.parseInt(number) >= current.studies().size()) {
      throw new Refusal(404, "The study has no such part.");
    }
    Study part = current.studies().get(Integer.parseInt(number));
    if (part.activation() != Activation.VOLUNTARY || !NEEDLE.equals(part.needle())) {
      throw new Refusal(
          409,
          "Fibre density has a meaning only with a single-fibre needle and voluntary activity.");
    }
    ObjectNode view = Json.object();
    ArrayNode sites = view.putArray("sites");
    List<Integer> potentials = new ArrayList<>();
    for (RecordingResult recording : part.recordings()) {
      DensitySite.of(recording)
          .ifPresent(
              site -> {
                sites.add(Json.tree(site));
                potentials.add(site.potentials());
              });
    }
    if (potentials.isEmpty()) {
      throw new Refusal(409, "No site has a potential of 200 uV and 300 us.");
    }
    FibreDensity density = FibreDensity.of(potentials);
    view.put("potentialsPerSite", density.potentialsPerSite());
    view.put("low", density.interval().map(FibreDensity.Interval::low).orElse(null));
    view.put("high", density.interval().map(FibreDensity.Interval::high).orElse(null));
    view.set("notes", Json.tree(density.notes()));
    LocalServer.json(context, view);
  }

  /** Other kept studies of the same subject. */
  private void others(Context context) throws IOException {
    KeptStudy study = desk.open(context.pathParam("study")).kept();
    String code = study.subjectCode();
    LocalServer.json(
        context,
        code == null
            ? List.of()
            : desk.store().studies().list(code).stream()
                .filter(other -> code.equals(other.subjectCode()) && !other.id().equals(study.id()))
                .toList());
  }

  /** From the other, the first examination, to this one. */
  private void change(Context context) throws IOException {
    Examination after = result(context.pathParam("study"));
    Examination before = result(context.pathParam("other"));
    try {
      LocalServer.json(context, BeforeAfter.of(before, after));
    } catch (IllegalArgumentException e) {
      throw new Refusal(409, "The two cannot be compared: expected " + e.getMessage() + ".");
    }
  }

  private Examination result(String id) throws IOException {
    OpenStudy study = desk.open(id);
    study.requireGrades();
    Examination current = study.current();
    if (current == null) {
      throw new Refusal(409, "There is no result yet: import recordings first.");
    }
    return current;
  }
}
