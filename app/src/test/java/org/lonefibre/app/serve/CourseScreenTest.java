package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;
import org.lonefibre.report.dicom.Pacs;

/** Fibre density and the change since another examination, on the page of a study. */
@Tag("endToEnd")
class CourseScreenTest {

  @TempDir @Nullable Path temporary;

  @Test
  void densityAndChangeAreShownOnThePageOfAStudy() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    List<String> violations = new ArrayList<>();
    Path folder = Objects.requireNonNull(temporary);
    Path data = folder.resolve("data");
    for (int seed : new int[] {51, 52}) {
      keep(folder.resolve("s" + seed), seed, data);
    }
    try (Chromium browser = Chromium.start();
        RunningWorkbench running =
            RunningWorkbench.in(data, new Pacs(nobody(), Duration.ofSeconds(20)))) {
      JsonNode studies =
          new ObjectMapper().readTree(RawRequest.own(running, "GET", "/api/studies").send().body());
      assertThat(studies).hasSize(2);
      browser.open(running.workbench().address());
      browser.await("document.querySelector('main h1')");
      browser.type("Working as", "Dr Example");
      browser.evaluate("location.hash = '#/study/" + studies.get(0).path("id").asText() + "'");
      browser.await("document.body.innerText.includes('Before and after')");
      browser.press("Fibre density, if the sites were chosen at random");
      browser.await("document.body.innerText.includes('potentials a site, 2 sites')");
      browser.press("Compare with another examination of this subject");
      browser.await("document.body.innerText.includes('First examination')");
      browser.press("Show the change");
      browser.await("document.body.innerText.includes('Mean jitter changed by')");
      browser.evaluate("document.getElementById('healthy-volunteer').click()");
      browser.await("document.querySelector('main').innerText.includes('Saved at')");
      Screens.look(browser, "course", violations);
      nothingIsSentUnseenAndAnAttemptIsOnRecord(browser, running, violations);
      browser.evaluate("location.hash = '#/limits'");
      // This workbench calls itself another version than the command that analysed the study.
      browser.await("document.querySelector('main').innerText.includes('accepted by grading')");
      assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
          .contains(
              "No kept study of a healthy volunteer counts yet", "Left out", "A-3", "not test/");
      browser.complaints.removeIf(line -> line.contains("502"));
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
  }

  private static void nothingIsSentUnseenAndAnAttemptIsOnRecord(
      Chromium browser, RunningWorkbench running, List<String> violations) throws IOException {
    assertThat(browser.evaluate("document.querySelector('footer').innerText").asText())
        .contains("Reports go to http://127.0.0.1:", "nothing else leaves this computer");
    browser.type("Accession number, if there is an order", "2026-000417");
    browser.evaluate(
        "[...document.querySelectorAll('button')].find((b) => b.textContent.startsWith('Send"
            + " to')).click()");
    browser.await("document.querySelector('dialog table')");
    assertThat(browser.evaluate("document.querySelector('dialog').innerText").asText())
        .contains("127.0.0.1", "this computer", "2026-000417", "A-3", "not signed");
    Screens.look(browser, "sending", violations);
    assertThat(changes(running)).doesNotContain("report sent");
    browser.evaluate("document.querySelector('dialog button.main').click()");
    browser.await("document.getElementById('alert').textContent.includes('nobody answers there')");
    assertThat(changes(running)).contains("report sent", "not confirmed");
  }

  private static String changes(RunningWorkbench running) throws IOException {
    return RawRequest.own(running, "GET", "/api/changes").send().body();
  }

  /** An address at which nobody listens. */
  private static URI nobody() throws IOException {
    try (ServerSocket closed = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return URI.create("http://127.0.0.1:" + closed.getLocalPort() + "/dicom-web");
    }
  }

  private static void keep(Path sites, int seed, Path data) throws IOException {
    assertThat(CommandRun.of("simulate", "--seed", seed, "--sites", "2", "--out", sites).exitCode())
        .isZero();
    CommandRun kept =
        CommandRun.of(
            "analyse",
            sites.resolve("site01.edf"),
            sites.resolve("site02.edf"),
            "--subject",
            "A-3",
            "--muscle",
            "ED",
            "--age",
            "40",
            "--needle",
            "single-fibre",
            "--activation",
            "voluntary",
            "--keep",
            "--data",
            data);
    assertThat(kept.exitCode()).as(kept.errors()).isZero();
  }
}
