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
      browser.await("document.querySelectorAll('main figure').length === 3");
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
                      "(() => { const rows = [...document.querySelectorAll('main figure table')][0]"
                          + ".querySelectorAll('tbody tr'); const of = (r, k) =>"
                          + " Number(r.children[k].textContent); return [2, 4].every((k) => of(rows[0],"
                          + " k) > of(rows[rows.length - 1], k)); })()")
                  .asBoolean())
          .isTrue();
      browser.complaints.removeIf(line -> line.contains("409"));
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
  }
}
