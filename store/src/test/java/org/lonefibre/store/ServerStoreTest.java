package org.lonefibre.store;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;

/** The tables on a PostgreSQL server of the distribution, started for these tests. */
class ServerStoreTest extends StoreContract {

  private static final Path PROGRAMS = Path.of("/usr/lib/postgresql");

  private static @Nullable Path cluster;
  private static @Nullable Path programs;
  private static int port;
  private static int databases;

  @BeforeAll
  static void startServer() throws IOException, InterruptedException {
    assumeTrue(
        Files.isDirectory(PROGRAMS), "no PostgreSQL server is installed (package postgresql)");
    try (var versions = Files.list(PROGRAMS)) {
      programs = versions.sorted().map(v -> v.resolve("bin")).reduce((a, b) -> b).orElseThrow();
    }
    assumeTrue(
        Files.exists(bin("initdb")), "no PostgreSQL server is installed (package postgresql)");
    Path fresh = Files.createTempDirectory("lonefibre-postgres");
    cluster = fresh;
    if (isRoot()) {
      run(List.of("chown", "postgres", fresh.toString()));
    }
    try (ServerSocket socket = new ServerSocket(0)) {
      port = socket.getLocalPort();
    }
    Path data = fresh.resolve("data");
    run(asServer(bin("initdb").toString(), "-A", "trust", "-U", "postgres", "-D", data.toString()));
    run(
        asServer(
            bin("pg_ctl").toString(),
            "-D",
            data.toString(),
            "-l",
            fresh.resolve("log").toString(),
            "-o",
            "-p " + port + " -c listen_addresses=127.0.0.1 -c unix_socket_directories=" + fresh,
            "-w",
            "start"));
  }

  @AfterAll
  static void stopServer() throws IOException, InterruptedException {
    Path started = cluster;
    if (started != null) {
      run(
          asServer(
              bin("pg_ctl").toString(),
              "-D",
              started.resolve("data").toString(),
              "-m",
              "immediate",
              "stop"));
      run(List.of("rm", "-rf", started.toString()));
    }
  }

  @Override
  String freshDatabase() throws IOException {
    String name = "store" + ++databases;
    try (var connection = DriverManager.getConnection(url("postgres"));
        var statement = connection.createStatement()) {
      statement.execute("create database " + name);
    } catch (SQLException e) {
      throw new IOException(e);
    }
    return url(name);
  }

  private static String url(String name) {
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + name + "?user=postgres";
  }

  private static Path bin(String program) {
    return java.util.Objects.requireNonNull(programs).resolve(program);
  }

  private static boolean isRoot() {
    return "root".equals(System.getProperty("user.name"));
  }

  /** The server refuses to run as root. */
  private static List<String> asServer(String... words) {
    List<String> command = new ArrayList<>();
    if (isRoot()) {
      command.addAll(List.of("runuser", "-u", "postgres", "--"));
    }
    command.addAll(List.of(words));
    return command;
  }

  private static void run(List<String> command) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(command)
            .directory(Path.of("/").toFile())
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
      process.destroyForcibly();
      throw new IOException(command + " failed");
    }
  }
}
