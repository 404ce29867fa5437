package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole job clicked through in a real browser; pictures of each screen are kept. */
@Tag("endToEnd")
class WorkbenchScreensTest {

  @TempDir @Nullable Path temporary;

  @Test
  void aPhysicianOpensTheDemoOverrulesSignsExportsAndFindsItAgain() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    Path folder = Objects.requireNonNull(temporary).resolve("data");
    List<String> violations = new ArrayList<>();
    try (Chromium browser = Chromium.start()) {
      try (RunningWorkbench running = RunningWorkbench.in(folder)) {
        browser.open(running.workbench().address());
        browser.await("document.body.innerText.includes('Nothing is kept yet')");
        assertThat(browser.evaluate("location.href").asText()).doesNotContain("token");
        Screens.look(browser, "studies-empty", violations);
        browser.type("Working as", "Dr Example");
        browser.press("Open the demo study");
        browser.await("document.querySelector('main progress')");
        Screens.look(browser, "studies-working", violations);
        browser.await("location.hash.startsWith('#/study/')");
        browser.await("document.querySelector('main canvas')");
        String study = browser.evaluate("location.hash").asText();
        Screens.look(browser, "study", violations);

        browser.press("demo-site03");
        browser.await("document.querySelector('article.sheet canvas')");
        assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
            .as("a limit says for what it holds")
            .containsPattern(
                "bove the limit [0-9.]+ µs of a single signal \\(extensor digitorum, voluntary,"
                    + " single-fibre needle, set [a-z0-9-]+\\)");
        Screens.look(browser, "site", violations);
        decideByPointer(browser);
        Screens.look(browser, "site-decided", violations);
        undoAndRedoByKeys(browser);
        browser.press("Compare with automatic");
        browser.press("Interval of each sweep");
        Screens.look(browser, "site-intervals", violations);
        browser.press("Sweeps in order of time");
        browser.press("Interval by discharge interval");
        Screens.look(browser, "site-rate", violations);
        overruleByKeyboardAlone(browser);

        browser.evaluate("location.hash = " + Chromium.quoted(study));
        browser.await("document.querySelector('#comment')");
        browser.type("Comment", "Looked at twice.");
        browser.type("Conclusion", "Written by a person.");
        browser.await("document.body.innerText.includes('Saved at')");
        browser.press("Sign …");
        browser.await("document.querySelector('dialog[open]')");
        Screens.look(browser, "study-signing", violations);
        browser.press("Sign");
        browser.await("document.body.innerText.includes('signed, version 1')");
        Screens.look(browser, "study-signed", violations);
        String first =
            browser
                .evaluate(
                    "fetch('/api/studies/"
                        + study.substring(study.lastIndexOf('/') + 1)
                        + "/exports/report.pdf', { headers: { Authorization: 'Bearer ' +"
                        + " sessionStorage.getItem('lonefibre-token') } }).then((r) =>"
                        + " r.text()).then((t) => t.slice(0, 5))")
                .asText();
        assertThat(first).isEqualTo("%PDF-");
        browser.press("Limits");
        browser.await(
            "document.title.startsWith('Limits') && document.querySelector('main table')");
        Screens.look(browser, "limits", violations);
        browser.press("Record of changes");
        browser.await(
            "document.title.startsWith('Record') && document.querySelector('main table')");
        browser.press("Verify everything");
        browser.await("document.body.innerText.includes('is as it was kept')");
        Screens.look(browser, "changes", violations);
        browser.evaluate("location.hash = '#/study/00000000-0000-0000-0000-000000000000'");
        browser.await("document.body.innerText.includes('could not be shown')");
        Screens.look(browser, "fault", violations);
        // The study that is not there is the one complaint that belongs here.
        browser.complaints.removeIf(line -> line.contains("404"));
      }
      try (RunningWorkbench again = RunningWorkbench.in(folder)) {
        browser.open(again.workbench().address());
        browser.await("document.querySelector('main table')");
        Screens.look(browser, "studies", violations);
        browser.press("DEMO, invented data");
        browser.await("document.querySelector('#comment')");
        assertThat(browser.evaluate("document.querySelector('#comment').value").asText())
            .isEqualTo("Looked at twice.");
        assertThat(browser.evaluate("document.body.innerText").asText())
            .contains("signed, version 1")
            .contains("movement of the needle");
        assertThat(again.store().verify()).isEmpty();
      }
      assertThat(browser.complaints).isEmpty();
      assertThat(browser.requests)
          .isNotEmpty()
          .allMatch(
              url ->
                  url.startsWith("http://127.0.0.1:")
                      || url.startsWith("blob:")
                      || url.startsWith("data:")
                      || url.equals("about:blank"));
    }
    assertThat(violations).isEmpty();
  }

  private static void decideByPointer(Chromium browser) {
    browser.type("Sweep", "5");
    browser.press("Exclude …");
    browser.await("document.querySelector('dialog[open]')");
    browser.press("Decide");
    browser.await("document.querySelector('dialog[open] [role=alert]').textContent !== ''");
    browser.type("Why", "movement of the needle");
    browser.press("Decide");
    browser.await("document.querySelector('.change')");
    sayTime(browser);
  }

  /** Not asserted: the machine may be busy. */
  private static void sayTime(Chromium browser) {
    System.out.println(
        browser
            .evaluate("/Computed again and saved in \\d+ ms/.exec(document.body.innerText)[0]")
            .asText());
  }

  private static void undoAndRedoByKeys(Chromium browser) {
    browser.evaluate("document.querySelector('main').focus()");
    browser.key("u", "KeyU", 85, "u");
    browser.await("document.querySelector('.change h2').textContent.startsWith('Undone')");
    browser.press("Redo");
    browser.await("document.querySelector('.change h2').textContent.startsWith('Redone')");
  }

  private static void overruleByKeyboardAlone(Chromium browser) {
    browser.evaluate("document.querySelector('[aria-label^=\"Change grade\"]').focus()");
    browser.key("Enter", "Enter", 13, "\r");
    browser.await("document.querySelector('dialog[open]')");
    browser.evaluate("document.querySelector('dialog[open] select').focus()");
    browser.key("ArrowDown", "ArrowDown", 40, "");
    browser.key("Tab", "Tab", 9, "");
    for (char letter : "by eye".toCharArray()) {
      browser.key(
          String.valueOf(letter), "", Character.toUpperCase(letter), String.valueOf(letter));
    }
    browser.key("Tab", "Tab", 9, "");
    browser.key("Enter", "Enter", 13, "\r");
    browser.await("document.querySelector('.change h2').textContent.startsWith('Grade')");
    browser.await("document.querySelector('main').innerText.includes('by eye')");
    sayTime(browser);
  }
}
