package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.Base64;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.app.CommandRun;

/** Each line of what a local server must keep to. */
@Tag("contract")
@SuppressWarnings("NullAway.Init")
class LocalServerSafetyTest {

  @TempDir static @Nullable Path temporary;

  private static RunningWorkbench running;

  @BeforeAll
  static void start() throws IOException {
    running = RunningWorkbench.in(folder());
  }

  @AfterAll
  static void stop() throws IOException {
    running.close();
  }

  private static Path folder() {
    return Objects.requireNonNull(temporary).resolve("data");
  }

  private static RawRequest get(String path) {
    return RawRequest.own(running, "GET", path);
  }

  private static RawRequest post(String path, String body) {
    return RawRequest.own(running, "POST", path).body(body);
  }

  @Test
  void aPageOfTheWorkbenchIsServed() throws IOException {
    assertThat(get("/api/studies").send().status()).isEqualTo(200);
    assertThat(
            post("/api/studies", "{\"title\":\"A\",\"subjectCode\":null,\"ageYears\":1}")
                .send()
                .status())
        .isEqualTo(201);
    assertThat(get("/").with("Sec-Fetch-Site", "none").send().body()).contains("<main id=\"main\"");
  }

  @Test
  void itAnswersOnLoopbackAlone() throws IOException {
    InetAddress other =
        NetworkInterface.networkInterfaces()
            .flatMap(NetworkInterface::inetAddresses)
            .filter(
                address -> !address.isLoopbackAddress() && address instanceof java.net.Inet4Address)
            .findFirst()
            .orElse(null);
    assumeTrue(other != null, "this computer has no other address");
    assertThatThrownBy(() -> new Socket(other, running.workbench().port()).close())
        .isInstanceOf(IOException.class);
  }

  @Test
  void itRefusesToStartElsewhere() {
    CommandRun run = CommandRun.of("serve", "--host", "0.0.0.0", "--no-browser");
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors()).contains("127.0.0.1").hasLineCount(1);
  }

  @ParameterizedTest
  @ValueSource(strings = {"/", "/web/app.js", "/api/studies", "/api/jobs/1/events", "/nowhere"})
  void anotherHostNameIsRefusedBeforeAnything(String path) throws IOException {
    for (String host :
        List.of(
            "attacker.example",
            "127.0.0.1",
            "127.0.0.1:1",
            "127.0.0.1.attacker.example:" + running.workbench().port())) {
      assertThat(get(path).with("Host", host).send().status()).as(host).isEqualTo(421);
    }
  }

  @Test
  void withoutTheTokenNothingIsToldOrDone() throws IOException {
    assertThat(get("/api/studies").without("Authorization").send().status()).isEqualTo(401);
    assertThat(get("/api/studies").with("Authorization", "Bearer guess").send().status())
        .isEqualTo(401);
    assertThat(post("/api/demo", "{}").without("Authorization").send().status()).isEqualTo(401);
    assertThat(get("/api/studies?token=" + running.token()).send().status()).isEqualTo(400);
  }

  @Test
  void theTokenIsLongNewAtEachLaunchAndInTheFragment() throws IOException {
    assertThat(Base64.getUrlDecoder().decode(running.token()).length).isGreaterThanOrEqualTo(16);
    assertThat(running.workbench().address()).contains("/#token=");
    try (RunningWorkbench other = RunningWorkbench.in(folder().resolveSibling("other"))) {
      assertThat(other.token()).isNotEqualTo(running.token());
    }
  }

  @Test
  void noCookieIsSetAndNoOtherOriginAllowed() throws IOException {
    RawRequest.Answer answer =
        get("/api/studies").with("Origin", "http://127.0.0.1:" + running.workbench().port()).send();
    assertThat(answer.status()).isEqualTo(200);
    assertThat(answer.headers()).doesNotContainKey("set-cookie");
    assertThat(answer.headers().keySet()).noneMatch(name -> name.startsWith("access-control"));
  }

  @Test
  void whatComesFromAnotherSiteIsRefused() throws IOException {
    for (String site : List.of("cross-site", "same-site", "none")) {
      assertThat(get("/api/studies").with("Sec-Fetch-Site", site).send().status()).isEqualTo(403);
    }
    assertThat(get("/api/studies").without("Sec-Fetch-Site").send().status()).isEqualTo(403);
    assertThat(get("/api/studies").with("Origin", "http://attacker.example").send().status())
        .isEqualTo(403);
    assertThat(get("/").with("Sec-Fetch-Site", "cross-site").send().status()).isEqualTo(403);
  }

  @Test
  void aChangeNeedsJsonTheHeaderAndTheOrigin() throws IOException {
    String body = "{\"title\":\"Forged\",\"subjectCode\":null,\"ageYears\":null}";
    assertThat(post("/api/studies", body).with("Content-Type", "text/plain").send().status())
        .isEqualTo(415);
    assertThat(
            post("/api/studies", body)
                .with("Content-Type", "application/x-www-form-urlencoded")
                .send()
                .status())
        .isEqualTo(415);
    assertThat(
            post("/api/studies", body)
                .with("Content-Type", "application/octet-stream")
                .send()
                .status())
        .isEqualTo(415);
    assertThat(post("/api/studies", body).without("Lonefibre-Request").send().status())
        .isEqualTo(403);
    assertThat(post("/api/studies", body).without("Origin").send().status()).isEqualTo(403);
    assertThat(post("/api/studies", body).with("Origin", "null").send().status()).isEqualTo(403);
    assertThat(get("/api/studies").send().body()).doesNotContain("Forged");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/web/app.js",
        "/api/studies",
        "/nowhere",
        "/api/nowhere",
        "/web/../x",
        "/%00",
        "/api/studies/x/exports/y"
      })
  void theHeadersAreOnEveryAnswer(String path) throws IOException {
    RawRequest.Answer answer = get(path).send();
    assertThat(answer.headers())
        .containsEntry("x-content-type-options", "nosniff")
        .containsEntry("referrer-policy", "no-referrer")
        .containsEntry("cache-control", "no-store");
    assertThat(answer.headers().get("content-security-policy"))
        .contains("default-src 'none'", "script-src 'self'", "frame-ancestors 'none'")
        .doesNotContain("unsafe", "*", "http");
    assertThat(answer.headers()).doesNotContainKey("server");
  }

  @Test
  void thePageHoldsNoScriptOfItsOwnAndNamesNoOtherHost() throws IOException {
    Path web =
        Path.of(
            "..", "workbench", "src", "main", "resources", "org", "lonefibre", "workbench", "web");
    try (var files = Files.list(web)) {
      for (Path file : files.toList()) {
        String text = Files.readString(file).replace("http://www.w3.org/2000/svg", "");
        assertThat(text)
            .as(file.toString())
            .doesNotContain("http://", "https://", "innerHTML", "eval(", "document.cookie");
      }
    }
    assertThat(Files.readString(web.resolve("index.html")))
        .doesNotContainPattern("<script(?![^>]*src=)")
        .doesNotContain("style=");
  }

  @Test
  void noPathFromAClientReachesAFile() throws IOException {
    for (String path :
        List.of(
            "/web/../../application.class",
            "/web/%2e%2e/x.js",
            "/web/a/../../x.js",
            "/web//etc/passwd")) {
      assertThat(get(path).send().status()).as(path).isBetween(400, 404);
    }
    RawRequest.Answer answer =
        RawRequest.own(running, "POST", "/api/recordings")
            .with("Content-Type", "application/octet-stream")
            .with("Lonefibre-File-Name", "..%2F..%2Fpasswd.edf")
            .body("not a recording")
            .send();
    assertThat(answer.status()).isEqualTo(200);
    assertThat(answer.body()).contains("\"fileName\":\"passwd.edf\"").contains("\"refusal\":\"");
    try (var files = Files.list(folder().resolve("recordings"))) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .allMatch(name -> name.matches("[0-9a-f]{64}(\\.[a-z0-9]{1,5})?"));
    }
  }

  @Test
  void faultsAreShortAndHoldNothingOfTheInside() throws IOException {
    RawRequest.Answer broken = post("/api/studies", "{\"title\":").send();
    assertThat(broken.status()).isEqualTo(400);
    assertThat(broken.body())
        .hasSizeLessThan(400)
        .doesNotContain("org.lonefibre", "\tat ", folder().toString());
    assertThat(get("/api/studies/00000000-0000-0000-0000-000000000000").send().status())
        .isEqualTo(404);
    assertThat(post("/api/studies", "{\"title\":\"A\",\"unknown\":1}").send().status())
        .isEqualTo(400);
  }

  @Test
  void theLocalLogHoldsTheWholeFaultAndNoIdentity() throws Exception {
    Path own = Objects.requireNonNull(temporary).resolve("faulty");
    LocalLog.begin(own);
    String answer;
    String token;
    try (RunningWorkbench faulty = RunningWorkbench.in(own)) {
      token = faulty.token();
      try (Connection connection =
              DriverManager.getConnection("jdbc:sqlite:" + own.resolve("lonefibre.db"));
          Statement statement = connection.createStatement()) {
        statement.execute("alter table study rename to gone");
      }
      answer =
          RawRequest.own(faulty, "POST", "/api/studies")
              .body("{\"title\":\"Secret title\",\"subjectCode\":\"SUBJ-77\",\"ageYears\":41}")
              .send()
              .body();
    }
    assertThat(answer).contains("A fault of the program, number ").doesNotContain("Exception");
    String number = answer.replaceAll("(?s).*number ([0-9a-f]+) .*", "$1");
    Path log = own.resolve("faults-0.log");
    assertThat(Files.readString(log))
        .contains("fault " + number, "Exception", "\tat ")
        .doesNotContain("SUBJ-77")
        .doesNotContain("Secret title")
        .doesNotContain(token);
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(log)))
        .isEqualTo("rw-------");
  }

  @Test
  void aNameInPlaceOfACodeIsRefused() throws IOException {
    RawRequest.Answer answer =
        post("/api/studies", "{\"title\":\"A\",\"subjectCode\":\"Jane Doe\",\"ageYears\":null}")
            .send();
    assertThat(answer.status()).isEqualTo(400);
    assertThat(answer.body()).contains("never a name");
  }

  @Test
  void theDataFolderIsForItsOwnerAndOneInstance() throws IOException {
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(folder())))
        .isEqualTo("rwx------");
    CommandRun second = CommandRun.of("serve", "--no-browser", "--data", folder());
    assertThat(second.exitCode()).isEqualTo(2);
    assertThat(second.errors()).contains("another Lonefibre").hasLineCount(1);
  }
}
