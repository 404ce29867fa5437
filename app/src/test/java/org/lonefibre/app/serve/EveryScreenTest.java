package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every screen where nothing is kept yet, and every screen when the workbench has ended. */
@Tag("endToEnd")
class EveryScreenTest {

  private static final String NOBODY = "00000000-0000-0000-0000-000000000000";

  private static final Map<String, String> SCREENS =
      Map.of(
          "studies", "#/studies",
          "needle", "#/needle",
          "limits", "#/limits",
          "practice", "#/practice",
          "changes", "#/changes");

  @TempDir @Nullable Path temporary;

  @Test
  void emptyAndFaultyScreensAreReadableToo() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    List<String> violations = new ArrayList<>();
    Path folder = Objects.requireNonNull(temporary).resolve("data");
    try (Chromium browser = Chromium.start()) {
      try (RunningWorkbench running = RunningWorkbench.in(folder)) {
        browser.open(running.workbench().address());
        browser.await("document.querySelector('main h1')");
        browser.type("Working as", "Dr Example");
        for (Map.Entry<String, String> screen : SCREENS.entrySet()) {
          show(browser, screen.getValue());
          Screens.look(browser, "empty-" + screen.getKey(), violations);
        }
        aStudyBeginsWithWhatIsAskedBefore(browser, violations);
      }
      // Asking for a needle that is not solved yet is how its work begins.
      browser.complaints.removeIf(line -> line.contains("409"));
      assertThat(browser.complaints).isEmpty();
      for (String[] screen :
          new String[][] {
            {"needle", "#/needle"},
            {"limits", "#/limits"},
            {"practice", "#/practice"},
            {"practice-case", "#/practice/1/1"},
            {"changes", "#/changes"},
            {"study", "#/study/" + NOBODY},
            {"site", "#/study/" + NOBODY + "/0/0"},
            {"studies", "#/studies"}
          }) {
        show(browser, screen[1]);
        assertThat(browser.evaluate("document.body.innerText").asText())
            .as(screen[0])
            .contains("The workbench does not answer")
            .doesNotContain("fetch");
        Screens.look(browser, "fault-" + screen[0], violations);
      }
    }
    assertThat(violations).isEmpty();
  }

  private static void show(Chromium browser, String hash) {
    browser.evaluate("location.hash = " + Chromium.quoted(hash));
    browser.await("document.querySelector('main').dataset.ready === " + Chromium.quoted(hash));
    browser.await("document.querySelector('main').ariaBusy === 'false'");
  }

  private static void aStudyBeginsWithWhatIsAskedBefore(Chromium browser, List<String> violations)
      throws Exception {
    show(browser, "#/studies");
    browser.press("New study");
    browser.await("document.querySelector('dialog[open]')");
    browser.type("Title", "A study of nobody");
    browser.press("Begin");
    browser.await("document.body.innerText.includes('This study has no recordings yet')");
    assertThat(
            browser.evaluate(
                "[...document.querySelectorAll('main h2')].map((h) => h.textContent).slice(0, 2)"))
        .extracting(heading -> heading.asText())
        .containsExactly("Before the examination", "Recordings");
    Screens.look(browser, "study-begun", violations);
  }
}
