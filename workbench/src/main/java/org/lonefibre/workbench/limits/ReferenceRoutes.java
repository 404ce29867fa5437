package org.lonefibre.workbench.limits;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.MuscleNames;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;

/** What studies are compared with, and the record of what was done. */
public final class ReferenceRoutes {

  private static final int MOST_CHANGES = 2000;

  private final Desk desk;
  private final @Nullable Pacs archive;

  /**
   * Routes beside the studies of a desk.
   *
   * @param archive where reports may be sent; null for nowhere
   */
  public ReferenceRoutes(Desk desk, @Nullable Pacs archive) {
    this.desk = desk;
    this.archive = archive;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/session", this::session);
    routes.get("/api/openapi.json", ReferenceRoutes::openApi);
    routes.get("/api/limits", this::limits);
    routes.get("/api/changes", this::changes);
    routes.get("/api/verification", this::verification);
  }

  private void session(Context context) throws IOException {
    ObjectNode session = Json.object();
    session.set("program", Json.tree(desk.analyst().producer()));
    session.set("muscles", Json.tree(MuscleNames.load().listKeys()));
    session.set("limitSets", Json.tree(catalogue().listSets()));
    session.put("archive", archive == null ? null : archive.address().toString());
    LocalServer.json(context, session);
  }

  private static void openApi(Context context) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(
            ReferenceRoutes.class.getResourceAsStream("/org/lonefibre/workbench/openapi.json"))) {
      context.contentType("application/json");
      context.result(in.readAllBytes());
    }
  }

  private LimitCatalogue catalogue() throws IOException {
    return LimitCatalogue.load(LimitSettings.defaults(), desk.store().limits().laboratory());
  }

  private void limits(Context context) throws IOException {
    LocalServer.json(context, catalogue().listPublished());
  }

  private void changes(Context context) {
    String study = Optional.ofNullable(context.queryParam("study")).orElse("");
    if (!study.matches("[0-9a-f-]{0,36}")) {
      throw new Refusal(404, "There is no such study.");
    }
    LocalServer.json(context, desk.store().listChanges(study, MOST_CHANGES));
  }

  private void verification(Context context) throws IOException {
    ObjectNode answer = Json.object();
    answer.set("wrong", Json.tree(desk.store().verify()));
    LocalServer.json(context, answer);
  }
}
