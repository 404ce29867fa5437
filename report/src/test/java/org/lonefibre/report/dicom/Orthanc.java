package org.lonefibre.report.dicom;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** The archive of the distribution on a free port of loopback, ended with the test. */
public final class Orthanc implements AutoCloseable {

  private static final Path PROGRAM = Path.of("/usr/sbin/Orthanc");
  private static final Path PLUGINS = Path.of("/usr/share/orthanc/plugins");

  private final Process process;
  private final int port;
  private final HttpClient client = HttpClient.newHttpClient();

  private Orthanc(Process process, int port) {
    this.process = process;
    this.port = port;
  }

  /** Why it cannot be started; empty if it can. */
  public static Optional<String> absence() {
    if (!Files.isExecutable(PROGRAM)) {
      return Optional.of("orthanc is not installed (./check installs it where it can)");
    }
    return Files.exists(PLUGINS.resolve("libOrthancDicomWeb.so"))
        ? Optional.empty()
        : Optional.of("orthanc-dicomweb is not installed (./check installs it where it can)");
  }

  /** Starts it and returns when it says that it has started. */
  public static Orthanc start(Path folder) throws IOException {
    return start(folder, "\"AuthenticationEnabled\": false");
  }

  /** The same, where only a user with a password may store. */
  static Orthanc guarded(Path folder, String user, String password) throws IOException {
    return start(
        folder,
        "\"AuthenticationEnabled\": true, \"RegisteredUsers\": {\"%s\": \"%s\"}"
            .formatted(user, password));
  }

  private static Orthanc start(Path folder, String access) throws IOException {
    int port;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    Path configuration =
        Files.writeString(
            folder.resolve("orthanc.json"),
            """
            {"Name": "test", "HttpPort": %d, "DicomServerEnabled": false,
             "RemoteAccessAllowed": false, %s,
             "StorageDirectory": "%s", "IndexDirectory": "%s", "Plugins": ["%s"],
             "DicomWeb": {"Enable": true, "Root": "/dicom-web/"}}
            """
                .formatted(
                    port,
                    access,
                    folder.resolve("storage"),
                    folder.resolve("index"),
                    PLUGINS.resolve("libOrthancDicomWeb.so")));
    Process process =
        new ProcessBuilder(List.of(PROGRAM.toString(), configuration.toString()))
            .redirectErrorStream(true)
            .start();
    // Not closed: the reader belongs to the process, which would die writing to a closed pipe.
    BufferedReader log = process.inputReader();
    StringBuilder said = new StringBuilder();
    for (String line = log.readLine(); line != null; line = log.readLine()) {
      said.append(line).append('\n');
      if (line.contains("Orthanc has started")) {
        Thread drain = new Thread(() -> drain(log), "log of the archive");
        drain.setDaemon(true);
        drain.start();
        return new Orthanc(process, port);
      }
    }
    throw new IllegalStateException("the archive did not start: " + said);
  }

  private static void drain(BufferedReader log) {
    try (Stream<String> lines = log.lines()) {
      lines.forEach(line -> {});
    } catch (java.io.UncheckedIOException e) {
      // The process was ended.
    }
  }

  /** Root of its DICOMweb service. */
  public URI dicomWeb() {
    return URI.create("http://127.0.0.1:" + port + "/dicom-web");
  }

  /** The body of what it answers to a path. */
  public byte[] get(String path) throws IOException, InterruptedException {
    return client
        .send(
            HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path)).build(),
            HttpResponse.BodyHandlers.ofByteArray())
        .body();
  }

  @Override
  public void close() throws IOException {
    process.destroy();
    try {
      if (!process.waitFor(10, TimeUnit.SECONDS)) {
        process.destroyForcibly().waitFor();
      }
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
    }
  }
}
