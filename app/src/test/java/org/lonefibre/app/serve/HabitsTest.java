package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Habits of the screens that no rule of accessibility covers, in a real browser. */
@Tag("endToEnd")
class HabitsTest {

  private static final String DETAIL =
      "document.querySelector('canvas[aria-label^=\"Recording, the part\"]')";

  @TempDir @Nullable Path temporary;

  @Test
  void whatHandsAndEarsExpect() throws Exception {
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
      browser.press("demo-site08");
      browser.await("document.querySelector('article.sheet canvas')");
      theRecordingIsHeard(browser);
      draggingHasKeysAndNumbers(browser);
      lettersCanBeSwitchedOff(browser);
      pointsAnswerWithin24Pixels(browser);
      statesAreWords(browser);
      aDecisionThatTurnsTheComparisonIsNamed(browser, study, violations);
      sitesMoveTogether(browser, violations);
      eachPrintedPageSaysWhoseItIs(browser);
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
  }

  private static double field(Chromium browser, String label) {
    return browser
        .evaluate(
            "Number([...document.querySelectorAll('label')].find((l) =>"
                + " l.textContent.startsWith("
                + Chromium.quoted(label)
                + ")).control.value)")
        .asDouble();
  }

  /** What leaves the limiter is not silence, time runs, and stopping closes it. */
  private static void theRecordingIsHeard(Chromium browser) {
    browser.evaluate(
        "(() => { window.heard = []; const Made = window.AudioContext; window.AudioContext = class"
            + " extends Made { constructor(...a) { super(...a); heard.push(this); }"
            + " createDynamicsCompressor() { const limit = super.createDynamicsCompressor();"
            + " this.ear = this.createAnalyser(); limit.connect(this.ear); return limit; } }; })()");
    browser.type("Speed", "0.5");
    browser.press("Hear it");
    browser.await("window.heard.length === 1 && heard[0].state === 'running'");
    browser.await(
        "(() => { const v = new Float32Array(heard[0].ear.fftSize);"
            + " heard[0].ear.getFloatTimeDomainData(v); return v.some((x) => Math.abs(x) > 1e-4)"
            + " && v.every((x) => Math.abs(x) <= 1); })()");
    browser.press("Stop");
    browser.await("heard[0].state === 'closed'");
  }

  private static void draggingHasKeysAndNumbers(Chromium browser) {
    double from = field(browser, "Shown from");
    double to = field(browser, "to, s");
    browser.evaluate(DETAIL + ".focus()");
    browser.key("+", "Equal", 187, "+");
    browser.key("+", "Equal", 187, "+");
    double span = field(browser, "to, s") - field(browser, "Shown from");
    assertThat(span).isCloseTo((to - from) / 4, org.assertj.core.data.Offset.offset(0.01));
    double before = field(browser, "Shown from");
    browser.key("ArrowRight", "ArrowRight", 39, "");
    double right = field(browser, "Shown from");
    assertThat(right).isGreaterThan(before);
    browser.evaluate(
        "(() => { const c = "
            + DETAIL
            + "; const b = c.getBoundingClientRect(); const at = (type, x) => c.dispatchEvent(new"
            + " PointerEvent(type, { pointerId: 1, clientX: b.left + x, clientY: b.top + 40,"
            + " bubbles: true })); c.setPointerCapture = () => {}; at('pointerdown', 300);"
            + " at('pointermove', 400); at('pointerup', 400); })()");
    assertThat(field(browser, "Shown from")).as("dragged").isLessThan(right);
    browser.type("Shown from", "1.5");
    assertThat(field(browser, "Shown from")).isEqualTo(1.5);
    browser.press("All");
    assertThat(field(browser, "to, s")).isEqualTo(to);
    theTableFollows(browser);
  }

  private static void theTableFollows(Chromium browser) {
    String figure = DETAIL + ".closest('figure')";
    String first = figure + ".querySelector('tbody th').textContent";
    browser.evaluate(figure + ".querySelector('details').open = true");
    browser.await(figure + ".querySelectorAll('tbody tr').length === 20");
    browser.await(first + ".startsWith('0.000 to')");
    browser.type("Shown from", "1.5");
    browser.press("Closer");
    browser.await("!" + first + ".startsWith('0.000 to')");
    browser.press("All");
    browser.await(first + ".startsWith('0.000 to')");
    browser.evaluate(figure + ".querySelector('details').open = false");
  }

  private static void lettersCanBeSwitchedOff(Chromium browser) {
    String chosen = "document.querySelector('#sweep').value";
    browser.evaluate("document.querySelector('main').focus()");
    browser.key("j", "KeyJ", 74, "j");
    browser.await(chosen + " !== ''");
    String before = browser.evaluate(chosen).asText();
    browser.key("?", "Slash", 191, "?");
    browser.await("document.querySelector('dialog[open] #letters')");
    browser.evaluate("document.querySelector('#letters').click()");
    browser.press("Good");
    browser.evaluate("document.querySelector('main').focus()");
    browser.key("j", "KeyJ", 74, "j");
    browser.key("?", "Slash", 191, "?");
    assertThat(browser.evaluate("document.querySelector('dialog[open]') === null").asBoolean())
        .isTrue();
    assertThat(browser.evaluate(chosen).asText()).isEqualTo(before);
    browser.press("Keys and help");
    browser.await("document.querySelector('dialog[open] #letters')");
    browser.evaluate("document.querySelector('#letters').click()");
    browser.press("Good");
    browser.evaluate("document.querySelector('main').focus()");
    browser.key("j", "KeyJ", 74, "j");
    browser.await(chosen + " !== " + Chromium.quoted(before));
  }

  /** A point is chosen from 18 pixels away, and not from 60. */
  private static void pointsAnswerWithin24Pixels(Chromium browser) {
    browser.press("Interval of each sweep");
    browser.await("document.querySelector('canvas[aria-label^=\"Interval of each sweep\"]')");
    JsonNode chosen =
        browser.evaluate(
            "(() => { const c = document.querySelector('canvas[aria-label^=\"Interval of each"
                + " sweep\"]'); const b = c.getBoundingClientRect(); const n ="
                + " Number(document.querySelector('#sweep').max); const click = (x, y) => {"
                + " const now = document.querySelector('canvas[aria-label^=\"Interval of each"
                + " sweep\"]'); const k = now.getBoundingClientRect(); now.dispatchEvent(new"
                + " MouseEvent('click', { clientX: k.left + x, clientY: k.top + y, bubbles: true"
                + " })); return document.querySelector('#sweep').value; }; const first = 68; const"
                + " blockedAt = b.height - 50; const x = (sweep) => first + ((sweep - 1) / (n - 1))"
                + " * (b.width - 18 - first); const rows ="
                + " [...document.querySelectorAll('figure table')].find((t) =>"
                + " t.caption.textContent === 'Interval of each sweep').querySelectorAll('tbody"
                + " tr'); const blocked = [...rows].filter((r) => r.children[3].textContent ==="
                + " 'blocked').map((r) => Number(r.children[0].textContent)); return {"
                + " blocked: blocked[0], near: click(x(blocked[0]), blockedAt + 18), far:"
                + " click(x(blocked[blocked.length - 1]), blockedAt + 60) }; })()");
    assertThat(chosen.path("near").asInt()).isEqualTo(chosen.path("blocked").asInt());
    assertThat(chosen.path("far").asInt()).isEqualTo(chosen.path("near").asInt());
  }

  private static void statesAreWords(Chromium browser) {
    JsonNode words =
        browser.evaluate(
            "[...new Set([...[...document.querySelectorAll('figure table')].find((t) =>"
                + " t.caption.textContent === 'Interval of each sweep').querySelectorAll('tbody"
                + " tr')].map((r) => r.children[3].textContent))]");
    List<String> found = new ArrayList<>();
    words.forEach(word -> found.add(word.asText()));
    assertThat(found)
        .contains("present", "blocked")
        .isSubsetOf("present", "blocked", "obscured", "excluded", "trigger-absent");
  }

  private static void aDecisionThatTurnsTheComparisonIsNamed(
      Chromium browser, String study, List<String> violations) throws IOException {
    browser.press("Exclude this signal");
    browser.type("Why", "movement of the needle");
    browser.press("Decide");
    browser.await("document.querySelector('.change')");
    browser.evaluate("location.hash = " + Chromium.quoted(study));
    browser.press("Which decision turns a comparison?");
    browser.await("document.querySelector('.findings li strong')");
    JsonNode said =
        browser.evaluate(
            "[...document.querySelectorAll('.findings li')].filter((l) =>"
                + " l.querySelector('strong')).map((l) => l.innerText)");
    assertThat(said).hasSize(1);
    assertThat(said.get(0).asText())
        .contains("demo-site08", "mean jitter")
        .containsPattern("turns (nothing|the comparison)");
    Screens.look(browser, "study-effects", violations);
  }

  private static void sitesMoveTogether(Chromium browser, List<String> violations)
      throws IOException {
    browser.press("Show the sites side by side");
    browser.await("document.querySelectorAll('canvas[aria-label^=\"Site demo\"]').length > 15");
    double from = field(browser, "From, ms");
    browser.evaluate("document.querySelector('canvas[aria-label^=\"Site demo\"]').focus()");
    browser.key("+", "Equal", 187, "+");
    browser.key("ArrowRight", "ArrowRight", 39, "");
    assertThat(field(browser, "From, ms")).isGreaterThan(from);
    Screens.look(browser, "study-side-by-side", violations);
  }

  private static void eachPrintedPageSaysWhoseItIs(Chromium browser) throws IOException {
    String pdf =
        browser
            .call("Page.printToPDF", Map.of("preferCSSPageSize", false, "printBackground", false))
            .path("data")
            .asText();
    try (PDDocument document = Loader.loadPDF(Base64.getDecoder().decode(pdf))) {
      int pages = document.getNumberOfPages();
      assertThat(pages).isGreaterThan(1);
      for (int page = 1; page <= pages; page++) {
        PDFTextStripper text = new PDFTextStripper();
        text.setStartPage(page);
        text.setEndPage(page);
        assertThat(text.getText(document))
            .contains("page " + page + " of " + pages)
            .contains("DEMO, invented data")
            .contains("subject DEMO-07");
      }
      // Figures are drawn in lines: their words can be found.
      assertThat(new PDFTextStripper().getText(document)).contains("limit");
      java.nio.file.Files.write(
          Path.of("target", "screens", "study-printed.pdf"), Base64.getDecoder().decode(pdf));
    }
  }
}
