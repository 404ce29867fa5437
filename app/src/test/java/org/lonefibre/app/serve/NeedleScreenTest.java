package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The contribution ladder in a real browser. */
@Tag("endToEnd")
class NeedleScreenTest {

  @TempDir @Nullable Path temporary;

  @Test
  void twoNeedlesStandBesideEachOther() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    List<String> violations = new ArrayList<>();
    Path folder = Objects.requireNonNull(temporary).resolve("data");
    try (Chromium browser = Chromium.start();
        RunningWorkbench running = RunningWorkbench.in(folder)) {
      browser.open(running.workbench().address());
      browser.type("Working as", "Dr Example");
      browser.press("Needle");
      browser.await("document.querySelectorAll('main figure').length === 7");
      browser.press("Put into a sample muscle");
      browser.await("document.querySelector('canvas[aria-label^=\"Ladder of a sample muscle\"]')");
      browser.press("Draw the lines of equal potential");
      browser.await(
          "document.querySelectorAll('canvas[aria-label^=\"Lines of equal potential\"]').length === 4");
      Screens.look(browser, "needle", violations);
      assertThat(
              browser
                  .evaluate(
                      "document.querySelector('canvas[aria-label^=\"Contribution ladder\"]').ariaLabel")
                  .asText())
          .contains("the nearest makes");
      // The nearest rung is the largest, with either needle.
      assertThat(
              browser
                  .evaluate(
                      "(() => { const rows = [...document.querySelectorAll('main figure table')].find((t) =>"
                          + " t.caption.textContent === 'Contribution ladder').querySelectorAll('tbody tr'); const of = (r, k) =>"
                          + " Number(r.children[k].textContent); return [2, 4].every((k) => of(rows[0],"
                          + " k) > of(rows[rows.length - 1], k)); })()")
                  .asBoolean())
          .isTrue();
      sharesAddUp(browser);
      leadsFallOutwards(browser);
      Screens.look(browser, "needle-whole", violations);
      browser.complaints.removeIf(line -> line.contains("409"));
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
  }

  private static JsonNode rows(Chromium browser, String caption) {
    return browser.evaluate(
        "[...[...document.querySelectorAll('main figure table')].find((t) =>"
            + " t.caption.textContent.startsWith("
            + Chromium.quoted(caption)
            + ")).querySelectorAll('tbody tr')].map((r) => [...r.children].map((c) =>"
            + " c.textContent))");
  }

  /** All fibres together make the spike. */
  private static void sharesAddUp(Chromium browser) {
    Map<String, Double> sums = new HashMap<>();
    double before = 0;
    String needle = "";
    for (JsonNode row : rows(browser, "Ladder of a sample muscle")) {
      sums.merge(row.get(0).asText(), row.get(3).asDouble(), Double::sum);
      if (!row.get(0).asText().equals(needle)) {
        needle = row.get(0).asText();
        before = 0;
      }
      if (!row.get(1).asText().equals("all others")) {
        assertThat(row.get(1).asDouble()).as("in order of distance").isGreaterThanOrEqualTo(before);
        before = row.get(1).asDouble();
      }
    }
    assertThat(sums).hasSize(2);
    // Each share is rounded to a tenth of a percent.
    assertThat(sums.values()).allSatisfy(sum -> assertThat(sum).isBetween(97.0, 103.0));
  }

  /** A larger lead lies nearer to the core. */
  private static void leadsFallOutwards(Chromium browser) {
    double before = Double.MAX_VALUE;
    int lines = 0;
    for (JsonNode row : rows(browser, "Lines of equal potential across the fibres")) {
      if (!row.get(1).asText().startsWith("nowhere")) {
        assertThat(row.get(1).asDouble()).isLessThanOrEqualTo(before);
        before = row.get(1).asDouble();
        lines++;
      }
    }
    assertThat(lines).isGreaterThan(2);
  }
}
