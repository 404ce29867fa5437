package org.lonefibre.workbench.needle;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import org.lonefibre.workbench.declaration.NeedleModel;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.work.Jobs;

/** Needles are solved in work that can be watched; what was solved is served from then on. */
public final class NeedleRoutes {

  private final NeedleModel model;
  private final Jobs jobs;
  private final Map<String, byte[]> solved = new ConcurrentHashMap<>();

  /** Routes to a model. */
  public NeedleRoutes(NeedleModel model, Jobs jobs) {
    this.model = model;
    this.jobs = jobs;
  }

  /** What is solved of a needle: the document, planes through it, places in a sample muscle. */
  private enum Kind {
    DOCUMENT("solving the field of needle "),
    SECTIONS("following the lead about needle "),
    PLACES("putting into a sample muscle needle ");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    private byte[] of(NeedleModel model, String key) throws IOException {
      return switch (this) {
        case DOCUMENT -> model.describe(key);
        case SECTIONS -> Json.bytes(model.sections(key));
        case PLACES -> Json.bytes(model.places(key));
      };
    }
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/needles", context -> LocalServer.json(context, model.listNeedles()));
    for (Kind kind : Kind.values()) {
      String path =
          "/api/needles/{needle}"
              + (kind == Kind.DOCUMENT ? "" : "/" + kind.name().toLowerCase(Locale.ROOT));
      routes.post(path, context -> solve(context, kind));
      routes.get(path, context -> show(context, kind));
    }
  }

  private String key(Context context) {
    String key = context.pathParam("needle");
    if (model.listNeedles().stream().noneMatch(needle -> needle.key().equals(key))) {
      throw new Refusal(404, "There is no such needle.");
    }
    return key;
  }

  private void solve(Context context, Kind kind) {
    String key = key(context);
    jobs.run(
        context,
        job -> {
          job.step(kind.words + key, 0, 1);
          if (!solved.containsKey(kind + key)) {
            solved.put(kind + key, kind.of(model, key));
          }
          if (job.isCancelled()) {
            throw new CancellationException("cancelled");
          }
          return key;
        });
  }

  private void show(Context context, Kind kind) {
    byte[] document = solved.get(kind + key(context));
    if (document == null) {
      throw new Refusal(409, "This needle is not solved yet.");
    }
    context.contentType("application/json");
    context.result(document);
  }
}
