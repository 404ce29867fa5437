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

/** Judging recordings with known truth in a real browser. */
@Tag("endToEnd")
class PracticeScreenTest {

  @TempDir @Nullable Path temporary;

  @Test
  void aLearnerJudgesSeesTheTruthAndFindsTheScoreAgainAfterARestart() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    List<String> violations = new ArrayList<>();
    Path folder = Objects.requireNonNull(temporary).resolve("data");
    try (Chromium browser = Chromium.start()) {
      try (RunningWorkbench running = RunningWorkbench.in(folder)) {
        browser.open(running.workbench().address());
        browser.await("document.body.innerText.includes('Nothing is kept yet')");
        assertThat(
                browser
                    .evaluate(
                        "[...document.querySelectorAll('main .sheet button, main .sheet a')].map("
                            + "(b) => b.textContent).join(', ')")
                    .asText())
            .as("the first run has three choices")
            .isEqualTo("Open recordings, Open the demo study, Practise");
        browser.press("Practise");
        browser.type("Working as", "Learner Example");
        browser.press("Begin");
        browser.await("document.querySelector('main canvas')");
        assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
            .as("nothing tells the truth before the answer")
            .doesNotContain("program says", "This is");
        pointAtASecondFibre(browser);
        markASweepByKeys(browser);
        Screens.look(browser, "practice-case", violations);
        browser.press("The potential alone");
        browser.await("document.querySelector('#close').ariaPressed === 'true'");
        Screens.look(browser, "practice-close", violations);
        browser.press("Composite");
        browser.press("Show the truth");
        browser.await("document.querySelector('#truth')");
        browser.await("document.activeElement.id === 'truth'");
        assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
            .contains("This is ", "You said composite", "The program says");
        Screens.look(browser, "practice-truth", violations);
        browser.press("Next case");
        browser.await("document.querySelector('h1').textContent.includes('case 2')");
        browser.await("document.querySelector('main canvas')");
        browser.evaluate("document.querySelector('main').focus()");
        browser.key("1", "Digit1", 49, "1");
        browser.await(
            "document.querySelector('[data-grade=\"single-fibre\"]').ariaPressed === 'true'");
        browser.key("t", "KeyT", 84, "t");
        browser.await("document.querySelector('#truth')");
        browser.press("To the score");
        browser.await("document.querySelectorAll('main figure').length === 1");
        browser.press("What my answers do to a study");
        browser.await("document.querySelector('.change table')");
        Screens.look(browser, "practice-score", violations);
      }
      try (RunningWorkbench again = RunningWorkbench.in(folder)) {
        browser.open(again.workbench().address());
        browser.await("document.querySelector('main h1')");
        browser.type("Working as", "Learner Example");
        browser.press("Practice");
        browser.await("document.body.innerText.includes('Go on: case 3')");
        aCaseOfTheLibraryIsJudged(browser, violations);
        assertThat(again.store().verify()).isEmpty();
      }
      assertThat(browser.complaints).isEmpty();
    }
    assertThat(violations).isEmpty();
  }

  /** By the keyboard: the strip moves, a sweep is chosen in all plots, a pitfall is named. */
  private static void aCaseOfTheLibraryIsJudged(Chromium browser, List<String> violations)
      throws Exception {
    browser.press("Take a case of the library");
    browser.await("document.querySelector('[data-strip=\"there\"]')");
    browser.await("document.querySelector('input[name=pitfall]')");
    assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
        .as("nothing tells the truth before the answer")
        .doesNotContain("The program says", "What is true", "caution", "Exclude the stretch");
    browser.evaluate("document.querySelector('main').focus()");
    browser.key("j", "KeyJ", 74, "j");
    browser.await("document.getElementById('status').textContent.startsWith('Sweep ')");
    Screens.look(browser, "practice-library", violations);
    browser.press("Interval of each sweep");
    browser.await("document.querySelector('[data-kind=intervals]').ariaPressed === 'true'");
    Screens.look(browser, "practice-library-intervals", violations);
    browser.press("Show the truth");
    browser.await("document.getElementById('alert').textContent.startsWith('Say first')");
    browser.evaluate("document.querySelector('#pitfall-none').focus()");
    browser.key(" ", "Space", 32, " ");
    browser.press("Show the truth");
    browser.await("document.activeElement.id === 'truth'");
    assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
        .contains("What is true: ", "You said: none of these", "the program is ");
    Screens.look(browser, "practice-library-truth", violations);
    browser.press("To the score");
    browser.await("document.body.innerText.includes('1 of 22 cases are judged')");
    Screens.look(browser, "practice-both-scores", violations);
  }

  private static void pointAtASecondFibre(Chromium browser) {
    browser.press("Point at it");
    browser.evaluate(
        "(() => { const c = document.querySelector('canvas[aria-label^=\"Sweeps"
            + " superimposed\"]'); const b = c.getBoundingClientRect(); c.dispatchEvent(new"
            + " MouseEvent('click', { clientX: b.left + b.width / 2, clientY: b.top + b.height / 2,"
            + " bubbles: true })); })()");
    browser.await("document.querySelector('#second').value !== ''");
  }

  private static void markASweepByKeys(Chromium browser) {
    browser.evaluate("document.querySelector('canvas[aria-label^=\"Sweeps\"]').focus()");
    browser.key("ArrowRight", "ArrowRight", 39, "");
    browser.evaluate("document.querySelector('main').focus()");
    browser.key("b", "KeyB", 66, "b");
    browser.await("document.querySelectorAll('fieldset input:checked').length === 1");
  }
}
