package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javax.xml.parsers.DocumentBuilderFactory;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sites measured as a person wants them, and a second reader, clicked through. */
@Tag("endToEnd")
class MoreScreensTest {

  @TempDir @Nullable Path temporary;

  @Test
  void aSiteIsMeasuredOtherwiseUndoneAndReadAgainBlind() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    List<String> violations = new ArrayList<>();
    Path folder = Objects.requireNonNull(temporary).resolve("data");
    try (Chromium browser = Chromium.start();
        RunningWorkbench running = RunningWorkbench.in(folder)) {
      browser.open(running.workbench().address());
      browser.type("Working as", "Dr Example");
      browser.press("Open the demo study");
      browser.await("location.hash.startsWith('#/study/')");
      String study = browser.evaluate("location.hash").asText();
      browser.press("demo-site03");
      browser.await("document.querySelector('article.sheet canvas')");
      Access.messagesAreAnnounced(browser);
      Access.focusIsNeverHidden(browser);
      Access.targetsAreLargeEnough(browser);
      Access.forcedColoursAreTaken(browser);
      figuresAreFiles(browser);
      setAsideByAFilter(browser, violations);
      splitAndMerged(browser);
      pointedAt(browser, violations);
      assertThat(running.store().verify()).isEmpty();

      browser.evaluate("location.hash = " + Chromium.quoted(study));
      browser.press("Give to a second reader");
      browser.press("Begin the blind reading");
      browser.await("document.body.innerText.includes('of the first reader are hidden')");
      Screens.look(browser, "reading-blind", violations);
      assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
          .doesNotContain("composite", "limit 4");
      browser.press("demo-site02");
      browser.await("document.querySelector('article.sheet canvas')");
      assertThat(
              browser
                  .evaluate(
                      "[...document.querySelectorAll('article.sheet .word')].map((w) =>"
                          + " w.textContent).filter((w) => w !== 'trigger' && w !== 'not judged"
                          + " yet').length")
                  .asInt())
          .isZero();
      Screens.look(browser, "site-blind", violations);
      for (int potential = 0; potential < 2; potential++) {
        browser.evaluate(
            "document.querySelectorAll('[aria-label^=\"Change grade\"]')["
                + potential
                + "].click()");
        browser.await("document.querySelector('dialog[open] select')");
        browser.type("Grade", potential == 0 ? "single-fibre" : "composite");
        browser.type("Why", "seen by me");
        browser.press("Decide");
        browser.await("!document.querySelector('dialog[open]')");
        browser.await(
            "[...document.querySelectorAll('article.sheet .word')].filter((w) => w.textContent ==="
                + " 'single fibre' || w.textContent === 'composite').length > "
                + potential);
      }
      browser.press("DEMO");
      browser.press("Finish the reading");
      browser.press("Finish");
      browser.await("document.querySelector('[aria-label^=\"Compared with\"]')");
      assertThat(
              browser
                  .evaluate("document.querySelector('[aria-label^=\"Compared with\"]').innerText")
                  .asText())
          .contains("1 of 2 potentials are graded alike");
      Screens.look(browser, "reading-compared", violations);
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
  }

  /** A figure as SVG holds its words and what is drawn, and is marked as invented. */
  private static void figuresAreFiles(Chromium browser) throws Exception {
    String svg =
        browser
            .evaluate(
                "new Promise((good) => { const made = URL.createObjectURL; URL.createObjectURL ="
                    + " (blob) => { URL.createObjectURL = made; blob.text().then(good); return"
                    + " made.call(URL, blob); };"
                    + " document.querySelector('[aria-label=\"Sweeps superimposed as"
                    + " SVG\"]').click(); })")
            .asText();
    assertThat(svg).startsWith("<?xml").contains("<path", "DEMO, invented data", "</svg>");
    // It is an XML document, or this throws.
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    String png =
        browser
            .evaluate(
                "new Promise((good) => { const made = URL.createObjectURL; URL.createObjectURL ="
                    + " (blob) => { URL.createObjectURL = made; blob.slice(1, 4).text().then(good);"
                    + " return made.call(URL, blob); };"
                    + " document.querySelector('[aria-label=\"Sweeps superimposed as"
                    + " PNG\"]').click(); })")
            .asText();
    assertThat(png).isEqualTo("PNG");
  }

  private static void decide(Chromium browser, String words) {
    browser.type("Why", words);
    browser.press("Measure again");
    browser.await("document.querySelector('.change')");
  }

  private static String change(Chromium browser) {
    return browser.evaluate("document.querySelector('.change h2').textContent").asText();
  }

  private static void setAsideByAFilter(Chromium browser, List<String> violations)
      throws Exception {
    browser.type("Sweep", "5");
    browser.press("Exclude …");
    browser.type("Why", "movement of the needle");
    browser.press("Decide");
    browser.await("document.querySelector('.change')");
    browser.press("Change filter");
    browser.await("document.querySelector('dialog[open]').innerText.includes('set aside')");
    browser.type("High-pass", "2000");
    Screens.look(browser, "site-filter", violations);
    decide(browser, "more background than usual");
    browser.await("document.body.innerText.includes('High-pass 2000 Hz, low-pass')");
    browser.await("document.body.innerText.includes('set aside: said of an earlier')");
    browser.press("Undo last step");
    browser.await("!document.body.innerText.includes('High-pass 2000 Hz, low-pass')");
    browser.await("!document.body.innerText.includes('set aside: said of an earlier')");
  }

  private static void splitAndMerged(Chromium browser) {
    String before = browser.evaluate("document.querySelector('.numbers').innerText").asText();
    browser.press("Split this unit");
    decide(browser, "two rhythms");
    browser.await("document.querySelector('.change h2').textContent.startsWith('Split')");
    browser.press("Undo last step");
    browser.await("document.querySelector('.change h2').textContent.startsWith('Undone')");
    assertThat(change(browser)).contains("Split");
    browser.await("document.querySelector('.numbers').innerText === " + Chromium.quoted(before));
  }

  /** Pointing where nothing is says so and changes nothing. */
  private static void pointedAt(Chromium browser, List<String> violations) throws Exception {
    browser.press("Point at a missed potential");
    browser.evaluate(
        "(() => { const c = document.querySelector('canvas[aria-label^=\"Sweeps"
            + " superimposed\"]'); const b = c.getBoundingClientRect(); c.dispatchEvent(new"
            + " MouseEvent('click', { clientX: b.left + 30, clientY: b.top + b.height / 2, bubbles:"
            + " true })); })()");
    browser.await("document.querySelector('dialog[open] input[type=number]').value !== ''");
    Screens.look(browser, "site-missed", violations);
    browser.type("Why", "seen in many sweeps");
    browser.press("Measure again");
    browser.await("document.querySelector('#alert').textContent.includes('nothing stands out')");
  }
}
