package org.lonefibre.workbench;

import java.io.IOException;
import java.util.List;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jspecify.annotations.Nullable;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.NeedleModel;
import org.lonefibre.workbench.declaration.PracticeCases;
import org.lonefibre.workbench.importing.ImportRoutes;
import org.lonefibre.workbench.limits.ControlRoutes;
import org.lonefibre.workbench.limits.LimitRoutes;
import org.lonefibre.workbench.limits.ReferenceRoutes;
import org.lonefibre.workbench.needle.NeedleRoutes;
import org.lonefibre.workbench.practice.PracticeRoutes;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.site.AnonymousRoutes;
import org.lonefibre.workbench.site.SiteRoutes;
import org.lonefibre.workbench.study.CourseRoutes;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.ReadingRoutes;
import org.lonefibre.workbench.study.SendingRoutes;
import org.lonefibre.workbench.study.StudyRoutes;
import org.lonefibre.workbench.work.Jobs;

/**
 * The workbench: studies of one store, reviewed and decided in a browser on this computer.
 *
 * <ul>
 *   <li>It serves 127.0.0.1 alone and asks nobody else for anything; a report goes to the archive
 *       that was named when it was started, and only when a person has seen what leaves and agreed.
 *   <li>The store stays open when it is closed; whoever opened it closes it.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class Workbench implements AutoCloseable {

  private final LocalServer server;
  private final SiteRoutes sites;
  private final Jobs jobs;

  private Workbench(LocalServer server, SiteRoutes sites, Jobs jobs) {
    this.server = server;
    this.sites = sites;
    this.jobs = jobs;
  }

  /**
   * Starts it.
   *
   * @param archive where reports may be sent; null for nowhere
   * @param port port on loopback; 0 for a free one
   */
  public static Workbench start(
      Store store,
      Analyst analyst,
      NeedleModel needles,
      PracticeCases cases,
      @Nullable Pacs archive,
      int port) {
    Desk desk = new Desk(store, analyst);
    Jobs jobs = new Jobs();
    SiteRoutes sites = new SiteRoutes(desk, jobs);
    LocalServer server =
        LocalServer.start(
            port,
            routes -> {
              new ReferenceRoutes(desk, archive).add(routes);
              new LimitRoutes(desk).add(routes);
              new ControlRoutes(desk).add(routes);
              new StudyRoutes(desk).add(routes);
              new ReadingRoutes(desk).add(routes);
              new CourseRoutes(desk).add(routes);
              new SendingRoutes(desk, archive).add(routes);
              sites.add(routes);
              new AnonymousRoutes(desk).add(routes);
              new ImportRoutes(desk, jobs, sites).add(routes);
              new NeedleRoutes(needles, jobs).add(routes);
              new PracticeRoutes(cases, store.practice(), jobs).add(routes);
              jobs.add(routes);
            });
    Thread preparing = new Thread(() -> prepare(desk), "lonefibre-prepare");
    preparing.setDaemon(true);
    preparing.start();
    return new Workbench(server, sites, jobs);
  }

  private static void prepare(Desk desk) {
    try {
      desk.prepare();
    } catch (IOException | RuntimeException e) {
      // Whoever opens the study is told.
      Logger.getLogger("org.lonefibre.workbench").log(Level.FINE, "not prepared", e);
    }
  }

  /** The address to open; it holds the token of this launch. */
  public String address() {
    return server.address();
  }

  /** Everything that is served, each as method and path. */
  public List<String> listRoutes() {
    return server.listRoutes();
  }

  /** Its port. */
  public int port() {
    return server.port();
  }

  @Override
  public void close() throws IOException {
    jobs.close();
    server.close();
    sites.close();
  }
}
