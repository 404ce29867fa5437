package org.lonefibre.app.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.needle.KnownNeedles;
import org.lonefibre.app.practice.SimulatedPractice;
import org.lonefibre.app.sending.DestinationOptions;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.Workbench;
import org.lonefibre.workbench.server.LocalServer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Serves the workbench on loopback until it is stopped. */
@Command(
    name = "serve",
    description = "The workbench in the browser, on this computer alone.",
    footer = {
      "",
      "Open the address that is printed; it holds the key of this launch. Stop with Ctrl+C."
    })
@SuppressWarnings("NullAway.Init")
public final class ServeCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Mixin private DataOptions data;

  @Option(
      names = "--port",
      defaultValue = "0",
      paramLabel = "PORT",
      description = "Port; a free one if not given.")
  private int port;

  @Option(
      names = "--host",
      defaultValue = LocalServer.ADDRESS,
      paramLabel = "ADDRESS",
      description = "127.0.0.1 and nothing else: the workbench is for this computer.")
  private String host;

  @Option(names = "--no-browser", description = "Print the address and open no browser.")
  private boolean noBrowser;

  @Option(
      names = "--pacs",
      paramLabel = "URL",
      description = "Archive to which reports may be sent when a person agrees; none if not given.")
  private @Nullable String pacs;

  @Mixin private DestinationOptions destination;

  @Option(
      names = "--stop-at-once",
      hidden = true,
      description = "Stop as soon as it is ready; the launcher learns which classes a start needs.")
  private boolean stopAtOnce;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public ServeCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException, InterruptedException {
    if (!host.equals(LocalServer.ADDRESS)) {
      throw new InputFault(
          "--host", "", LocalServer.ADDRESS, host, "the workbench serves this computer alone");
    }
    if (port < 0 || port > 65_535) {
      throw new InputFault("--port", "", "0 to 65535", Integer.toString(port), "give another");
    }
    Pacs archive = pacs == null ? null : destination.pacs(pacs, "--pacs");
    LocalLog.begin(data.folder());
    Store store = data.open();
    Workbench workbench = start(store, archive);
    if (stopAtOnce) {
      close(workbench, store);
      return ExitCode.DONE.number();
    }
    CountDownLatch stopped = new CountDownLatch(1);
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  close(workbench, store);
                  stopped.countDown();
                }));
    spec.commandLine().getOut().println("Lonefibre is at " + workbench.address());
    spec.commandLine().getOut().flush();
    if (!noBrowser) {
      Browser.open(workbench.address());
    }
    stopped.await();
    return ExitCode.DONE.number();
  }

  private Workbench start(Store store, @Nullable Pacs archive) throws IOException {
    try {
      ChainAnalyst analyst = new ChainAnalyst(producer, store.limits()::laboratory);
      return Workbench.start(
          store, analyst, new KnownNeedles(cache()), new SimulatedPractice(analyst), archive, port);
    } catch (RuntimeException e) {
      store.close();
      Throwable cause = e.getCause() == null ? e : e.getCause();
      throw new InputFault(
          "--port", "", "a port that is free", String.valueOf(cause.getMessage()), "give another");
    }
  }

  private static Path cache() {
    return Path.of(System.getProperty("user.home", "."), ".cache", "lonefibre");
  }

  private static void close(Workbench workbench, Store store) {
    try (store;
        workbench) {
      // Closes the workbench, then the store.
    } catch (IOException e) {
      System.err.println("lonefibre: " + e.getMessage());
    }
  }
}
