package org.lonefibre.workbench.work;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.sse.SseClient;
import java.io.IOException;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;

/** The long work of a workbench, one piece at a time. Thread rule: safe. */
public final class Jobs implements AutoCloseable {

  private static final Logger LOG = Logger.getLogger("org.lonefibre.workbench");

  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "lonefibre-work");
            thread.setDaemon(true);
            return thread;
          });
  private final Map<String, Job> jobs = new ConcurrentHashMap<>();

  /** Work that ends with the identity of the study it changed or made. */
  public interface Work {
    /** Does it. */
    String on(Job job) throws IOException;
  }

  /** Adds the routes by which work is watched and cancelled. */
  public void add(RoutesConfig routes) {
    routes.get("/api/jobs/{job}", context -> LocalServer.json(context, job(context).progress()));
    routes.post(
        "/api/jobs/{job}/cancel",
        context -> {
          job(context).cancel();
          LocalServer.json(context, job(context).progress());
        });
    routes.sse("/api/jobs/{job}/events", this::watch);
  }

  private Job job(Context context) {
    Job job = jobs.get(context.pathParam("job"));
    if (job == null) {
      throw new Refusal(404, "There is no such work.");
    }
    return job;
  }

  private void watch(SseClient client) {
    Job job = job(client.ctx());
    try {
      long seen = -1;
      while (!client.terminated()) {
        Job.Progress progress = job.await(seen);
        seen = job.changes();
        client.sendEvent("progress", Json.text(progress));
        if (!progress.state().equals("running")) {
          break;
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    client.close();
  }

  /** Begins work and answers with how far it is. */
  public void run(Context context, Work work) {
    String id = UUID.randomUUID().toString();
    Job job = new Job(id);
    jobs.put(id, job);
    worker.execute(
        () -> {
          try {
            job.end("done", work.on(job), null);
          } catch (CancellationException e) {
            job.end("cancelled", null, null);
          } catch (Refusal e) {
            job.end("failed", null, String.valueOf(e.getMessage()));
          } catch (IllegalArgumentException e) {
            job.end("failed", null, "This cannot be done: " + e.getMessage() + ".");
          } catch (IOException | RuntimeException e) {
            LOG.log(Level.WARNING, "work failed", e);
            job.end("failed", null, String.valueOf(e.getMessage()));
          } catch (OutOfMemoryError e) {
            LOG.log(Level.WARNING, "work failed", e);
            job.end(
                "failed",
                null,
                "The memory given to the program does not suffice for this. Started with"
                    + " LONEFIBRE_JAVA_OPTS=-Xmx2g in its environment it takes up to 2 GB.");
          } catch (StackOverflowError | LinkageError e) {
            // Whoever watches is told, whatever it was.
            LOG.log(Level.WARNING, "work failed", e);
            job.end("failed", null, "A fault of the program; its log says more.");
          }
        });
    context.status(202);
    LocalServer.json(context, job.progress());
  }

  /** Something that nobody waits for, behind the work there is. */
  public interface Later {
    /** Does it. */
    void run() throws IOException;
  }

  /** Does something behind the work there is; what goes wrong with it stands in the log alone. */
  public void later(Later something) {
    worker.execute(
        () -> {
          try {
            something.run();
          } catch (IOException | RuntimeException e) {
            LOG.log(Level.FINE, "not done", e);
          }
        });
  }

  @Override
  public void close() {
    jobs.values().forEach(Job::cancel);
    worker.shutdownNow();
  }
}
