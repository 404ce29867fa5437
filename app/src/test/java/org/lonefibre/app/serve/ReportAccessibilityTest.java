package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** The report as HTML before the rules of accessibility, on the screen and as it is printed. */
@Tag("endToEnd")
class ReportAccessibilityTest {

  private static final Path PICTURES = Path.of("target", "screens");

  @TempDir private Path folder;

  @Test
  void theReportBreaksNoRuleInAnyLanguageOnScreenAndInPrint() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    CommandRun demo = CommandRun.of("demo", "--out", folder);
    assertThat(demo.exitCode()).as(demo.errors()).isZero();
    List<String> violations = new ArrayList<>();
    try (Chromium browser = Chromium.start()) {
      for (String language : List.of("en", "de")) {
        Path out = folder.resolve(language);
        CommandRun run =
            CommandRun.of(
                "report",
                folder.resolve("analysis.json"),
                "--format",
                "html",
                "--language",
                language,
                "--out",
                out);
        assertThat(run.exitCode()).as(run.errors()).isZero();
        browser.open(out.resolve("report.html").toUri().toString());
        browser.await("document.querySelectorAll('table.signals tbody tr').length > 3");
        for (String medium : List.of("screen", "print")) {
          browser.call("Emulation.setEmulatedMedia", Map.of("media", medium));
          look(browser, "report-" + language + "-" + medium, violations);
        }
      }
    }
    assertThat(violations).isEmpty();
  }

  private static void look(Chromium browser, String name, List<String> violations)
      throws IOException {
    browser.picture(PICTURES.resolve(name + ".png"));
    assertThat(browser.evaluate("getComputedStyle(document.body).backgroundColor").asText())
        .as("printed on paper, so light always")
        .isEqualTo("rgb(255, 255, 255)");
    Screens.rules(browser, name, violations);
  }
}
