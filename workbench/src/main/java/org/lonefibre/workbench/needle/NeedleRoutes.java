package org.lonefibre.workbench.needle;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import org.lonefibre.workbench.declaration.NeedleModel;
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

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/needles", context -> LocalServer.json(context, model.listNeedles()));
    routes.post("/api/needles/{needle}", this::solve);
    routes.get("/api/needles/{needle}", this::show);
  }

  private String key(Context context) {
    String key = context.pathParam("needle");
    if (model.listNeedles().stream().noneMatch(needle -> needle.key().equals(key))) {
      throw new Refusal(404, "There is no such needle.");
    }
    return key;
  }

  private void solve(Context context) {
    String key = key(context);
    jobs.run(
        context,
        job -> {
          job.step("solving the field of needle " + key, 0, 1);
          if (!solved.containsKey(key)) {
            solved.put(key, model.describe(key));
          }
          if (job.isCancelled()) {
            throw new CancellationException("cancelled");
          }
          return key;
        });
  }

  private void show(Context context) {
    byte[] document = solved.get(key(context));
    if (document == null) {
      throw new Refusal(409, "This needle is not solved yet.");
    }
    context.contentType("application/json");
    context.result(document);
  }
}
