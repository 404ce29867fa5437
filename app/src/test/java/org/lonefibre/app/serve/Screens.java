package org.lonefibre.app.serve;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/** Looks at a screen as it is. */
final class Screens {

  private static final Path PICTURES = Path.of("target", "screens");

  private Screens() {}

  /** A picture and the rules of accessibility, light and dark. */
  static void look(Chromium browser, String name, List<String> violations) throws IOException {
    for (String scheme : List.of("light", "dark")) {
      browser.colours(scheme);
      browser.await("document.documentElement.dataset.theme === '" + scheme + "'");
      browser.evaluate("new Promise((good) => requestAnimationFrame(() => setTimeout(good, 300)))");
      browser.picture(PICTURES.resolve(name + "-" + scheme + ".png"));
      rules(browser, name + ", " + scheme, violations);
      words(browser, name + ", " + scheme, violations);
      figures(browser, name + ", " + scheme, violations);
    }
  }

  /** Each plot has a name, a sentence and a table that says the same. */
  private static void figures(Chromium browser, String name, List<String> violations) {
    for (JsonNode found :
        browser.evaluate(
            "[...document.querySelectorAll('main figure')].filter((f) =>"
                + " !f.querySelector('details summary') || !/^.+\\. .+/.test("
                + "f.querySelector('canvas')?.getAttribute('aria-label') ?? '')).map((f) => 'no"
                + " name, sentence or table: ' + f.innerText.slice(0, 80))")) {
      violations.add(name + ": " + found.asText());
    }
  }

  /** No verdict that stands alone, and no mark that is a colour without a word. */
  private static void words(Chromium browser, String name, List<String> violations) {
    for (JsonNode found :
        browser.evaluate(
            "[...(document.body.innerText.match(/.{0,40}\\b(ab)?normal\\b.{0,40}/gi) ?? []),"
                + " ...[...document.querySelectorAll('.word')].filter((w) =>"
                + " !w.textContent.trim()).map((w) => w.outerHTML)]")) {
      violations.add(name + ": " + found.asText());
    }
  }

  /** The rules of accessibility on the page as it is now; breaches are added, each with a name. */
  static void rules(Chromium browser, String name, List<String> violations) throws IOException {
    if (browser.evaluate("typeof axe").asText().equals("undefined")) {
      browser.evaluate(axe());
    }
    JsonNode found =
        browser.evaluate(
            "axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',"
                + " 'wcag22aa', 'best-practice'], rules: { 'target-size': { enabled: true } }"
                + " }).then((r) => r.violations.map((v) => v.id + ': ' +"
                + " v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160) + ' ' + n.failureSummary).join(' | ')))");
    found.forEach(line -> violations.add(name + ": " + line.asText()));
  }

  private static String axe() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(Screens.class.getResourceAsStream("/axe.min.js"))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8) + "\n;0";
    }
  }
}
