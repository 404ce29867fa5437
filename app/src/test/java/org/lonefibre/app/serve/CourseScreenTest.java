package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

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
        RunningWorkbench running = RunningWorkbench.in(data)) {
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
      browser.evaluate("location.hash = '#/limits'");
      // This workbench calls itself another version than the command that analysed the study.
      browser.await("document.querySelector('main').innerText.includes('accepted by grading')");
      assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
          .contains(
              "No kept study of a healthy volunteer counts yet", "Left out", "A-3", "not test/");
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
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
