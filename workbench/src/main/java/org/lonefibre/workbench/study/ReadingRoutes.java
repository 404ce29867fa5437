package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.store.studies.StudyFile;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;

/**
 * Second readers: a study is given to another person blind, and the two readings are compared.
 *
 * <p>Blind is what this person's pages show. On one computer nobody is kept from opening the first
 * reading; the record of changes says who did what.
 */
public final class ReadingRoutes {

  private final Desk desk;

  /** Routes to the readings of the studies of a desk. */
  public ReadingRoutes(Desk desk) {
    this.desk = desk;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.post("/api/studies/{study}/readings", this::begin);
    routes.get("/api/studies/{study}/readings", this::compare);
    routes.post("/api/studies/{study}/reading/finished", this::finish);
  }

  private void begin(Context context) throws IOException {
    String id = context.pathParam("study");
    String person = Person.of(context);
    OpenStudy first = desk.open(id);
    if (first.automatic() == null) {
      throw new Refusal(409, "There is nothing to be read yet: import recordings first.");
    }
    if (first.reading() != null) {
      throw new Refusal(409, "This is a second reading already: give the first one to others.");
    }
    Map<KeptRecording, String> files = new LinkedHashMap<>();
    for (StudyFile file : desk.store().studies().listFiles(id)) {
      files.put(desk.store().studies().findRecording(file.sha256()).orElseThrow(), file.fileName());
    }
    String title = first.kept().title() + ", second reader";
    KeptStudy study =
        desk.store()
            .studies()
            .create(
                title.substring(0, Math.min(200, title.length())),
                first.kept().subjectCode(),
                first.kept().provenance(),
                person);
    desk.store()
        .studies()
        .keepAnalysis(
            study.id(),
            files,
            Map.of(
                Desk.DECLARATION,
                desk.store().studies().findDocument(id, Desk.DECLARATION).orElseThrow(),
                Desk.AUTOMATIC,
                desk.store().studies().findDocument(id, Desk.AUTOMATIC).orElseThrow(),
                Reading.KIND,
                Json.text(new Reading(id, "blind"))),
            person,
            "");
    context.status(201);
    LocalServer.json(context, Json.object().put("study", study.id()));
  }

  private void finish(Context context) throws IOException {
    String id = context.pathParam("study");
    Reading reading = desk.open(id).reading();
    if (reading == null || !reading.hidesGrades()) {
      throw new Refusal(409, "This is no blind reading.");
    }
    desk.store()
        .studies()
        .keepAnalysis(
            id,
            Map.of(),
            Map.of(Reading.KIND, Json.text(new Reading(reading.of(), "finished"))),
            Person.of(context),
            "");
    LocalServer.json(context, Json.object().put("study", id));
  }

  private void compare(Context context) throws IOException {
    String id = context.pathParam("study");
    OpenStudy study = desk.open(id);
    ObjectNode view = Json.object();
    ArrayNode readings = view.putArray("readings");
    Reading own = study.reading();
    if (own != null) {
      if (!own.hidesGrades()) {
        readings.add(Comparison.of(desk.open(own.of()), study));
      }
    } else {
      for (String other : desk.store().studies().listWithDocument(Reading.KIND)) {
        Reading reading =
            Json.read(
                desk.store().studies().findDocument(other, Reading.KIND).orElseThrow(),
                Reading.class);
        if (reading.of().equals(id)) {
          readings.add(Comparison.of(study, desk.open(other)));
        }
      }
    }
    LocalServer.json(context, view);
  }
}
