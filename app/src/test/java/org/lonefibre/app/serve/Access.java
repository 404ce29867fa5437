package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What the rules of accessibility ask for and no engine sees, on the screen as it is. */
final class Access {

  private static final int MOST_TABS = 150;

  private Access() {}

  /** Walks through the page by Tab: no focus lies wholly under something else. */
  static void focusIsNeverHidden(Chromium browser) {
    browser.evaluate("document.querySelector('a.skip').focus()");
    // A message is shown all the while.
    browser.evaluate(
        "document.getElementById('status').textContent = 'A message of some length, which lies over"
            + " the page while one walks through it.'");
    List<String> hidden = new ArrayList<>();
    int seen = 0;
    for (int tab = 0; tab < MOST_TABS; tab++) {
      browser.key("Tab", "Tab", 9, "");
      JsonNode focus =
          browser.evaluate(
              "(() => { const e = document.activeElement; if (!e || e === document.body) return"
                  + " null; const b = e.getBoundingClientRect(); const points = []; for (const fx of"
                  + " [0.1, 0.5, 0.9]) for (const fy of [0.1, 0.5, 0.9]) points.push([b.left + fx *"
                  + " b.width, b.top + fy * b.height]); const visible = points.some(([x, y]) => {"
                  + " const at = document.elementFromPoint(x, y); return at && (e.contains(at) ||"
                  + " at.contains(e) && at !== document.getElementById('status') && at !=="
                  + " document.getElementById('alert')); }); const outline ="
                  + " getComputedStyle(e).outlineStyle; return { visible, outline, what:"
                  + " e.outerHTML.slice(0, 120) }; })()");
      if (focus == null || focus.isNull()) {
        break;
      }
      seen++;
      if (!focus.path("visible").asBoolean() || focus.path("outline").asText().equals("none")) {
        hidden.add(focus.path("what").asText());
      }
    }
    assertThat(seen).as("places to stop at").isGreaterThan(20);
    assertThat(hidden).as("focus hidden or without an outline").isEmpty();
  }

  /** Everything to press is 24 pixels high and wide; links in running text are exempt. */
  static void targetsAreLargeEnough(Chromium browser) {
    JsonNode small =
        browser.evaluate(
            "[...document.querySelectorAll('button, input, select, textarea, summary, nav a')]"
                + ".filter((e) => e.offsetParent).map((e) => [e, e.getBoundingClientRect()])"
                + ".filter(([, b]) => b.width < 24 || b.height < 24).map(([e, b]) =>"
                + " `${b.width} x ${b.height}: ${e.outerHTML.slice(0, 100)}`)");
    assertThat(small).as("smaller than 24 pixels").isEmpty();
  }

  /** In forced colours, light and dark, everything drawn stands out of its background. */
  static void forcedColoursAreTaken(Chromium browser) throws Exception {
    for (String scheme : List.of("light", "dark")) {
      browser.display(Map.of("forced-colors", "active", "prefers-color-scheme", scheme));
      browser.evaluate("new Promise((good) => setTimeout(good, 300))");
      JsonNode weak =
          browser.evaluate(
              "import('/web/plots.js').then(({ inks }) => { const light = (colour) => { const [r, g,"
                  + " b] = colour.match(/[0-9.]+/g).map(Number); const l = (v) => (v / 255 <= 0.04045"
                  + " ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4); return 0.2126 * l(r) +"
                  + " 0.7152 * l(g) + 0.0722 * l(b); }; const paper ="
                  + " light(getComputedStyle(document.querySelector('canvas')).backgroundColor); const"
                  + " ratio = (one) => (Math.max(one, paper) + 0.05) / (Math.min(one, paper) + 0.05);"
                  + " const i = inks(); return ['ink', 'accent', 'raise', 'mark', 'soft',"
                  + " 'line'].filter((name) => ratio(light(i[name])) < 3).map((name) => name + ' ' +"
                  + " i[name]); })");
      assertThat(weak).as("weak in forced colours, " + scheme).isEmpty();
      browser.picture(java.nio.file.Path.of("target", "screens", "forced-" + scheme + ".png"));
    }
    browser.display(Map.of("prefers-reduced-motion", "reduce"));
    assertThat(
            browser
                .evaluate(
                    "getComputedStyle(document.querySelector('main button')).transitionDuration")
                .asText())
        .isEqualTo("0s");
    browser.display(Map.of());
  }

  /** What changes by a choice is said where readers of the screen hear it. */
  static void messagesAreAnnounced(Chromium browser) {
    browser.type("Sweep", "7");
    browser.await("document.querySelector('[role=status]').textContent.startsWith('Sweep 7')");
    assertThat(browser.evaluate("document.querySelector('#status').ariaLive").asText())
        .isEqualTo("polite");
  }
}
