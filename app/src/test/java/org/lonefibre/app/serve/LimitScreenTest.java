package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** A laboratory decides about limits in the workbench, and its studies follow. */
@Tag("endToEnd")
class LimitScreenTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final String HEAD =
      "set_id,set_name,muscle,needles,activation,centre_statistic,centre_limit_us,"
          + "individual_limit_us,source\\n";

  @TempDir @Nullable Path temporary;

  @Test
  void decisionsAboutLimitsAreTakenOnTheScreenAndKeptWithTheirReasons() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    List<String> violations = new ArrayList<>();
    Path data = study();
    try (Chromium browser = Chromium.start();
        RunningWorkbench running = RunningWorkbench.in(data)) {
      browser.open(running.workbench().address());
      browser.await("document.querySelector('main h1')");
      browser.type("Working as", "Dr Example");
      browser.press("Limits");
      browser.await("document.body.innerText.includes('What this laboratory decided')");
      assertThat(text(browser)).contains("none chosen", "None was added", "None was confirmed");
      assertThat(
              browser
                  .evaluate(
                      "[...document.querySelectorAll('main table')].find((t) =>"
                          + " t.caption.textContent === 'Limits of cn-multicentre-2016').innerText")
                  .asText())
          .as("two rows of a muscle tell for which activation each holds")
          .contains("voluntary", "stimulated");
      addFile(browser, "own-lab-1,ours,ED,single-fibre,voluntary,mean,-3,42,own");
      browser.await("document.getElementById('alert').textContent !== ''");
      assertThat(browser.evaluate("document.getElementById('alert').textContent").asText())
          .contains("own.csv: line 2, centre_limit_us: expected a number of 1 to 1000 us");
      addFile(browser, "own-lab-1,ours,ED,single-fibre,voluntary,mean,30,42,own controls 2024");
      browser.await("document.querySelector('main').innerText.includes('own.csv')");
      confirmDeltoid(browser, violations);
      browser.evaluate(
          "[...document.querySelectorAll('button')].find((b) => b.ariaLabel === 'Choose a set for"
              + " extensor digitorum, concentric-small, voluntary').click()");
      browser.await("document.querySelector('dialog')");
      assertThat(browser.evaluate("document.querySelector('dialog').innerText").asText())
          .as("both names are shown")
          .contains("cn-multicentre-2016", "cn-japan-2012");
      browser.type("Why this one", "our controls agree with it");
      Screens.look(browser, "limits-choose", violations);
      browser.press("Use this set");
      browser.await("!document.querySelector('dialog')");
      browser.await("document.querySelector('main').innerText.includes('From') ");
      assertThat(text(browser)).contains("Own controls", "No kept study of a healthy volunteer");
      Screens.look(browser, "limits-decided", violations);
      String id = get(running, "/api/studies").get(0).path("id").asText();
      browser.evaluate("location.hash = '#/study/" + id + "'");
      browser.await("document.body.innerText.includes('Compared with set cn-multicentre-2016')");
      browser.press("What each limit set would say");
      browser.await("document.querySelector('main').innerText.includes('cn-japan-2012')");
      Screens.look(browser, "limits-compared", violations);
      browser.complaints.removeIf(line -> line.contains("400"));
      assertThat(browser.complaints).isEmpty();
      assertThat(get(running, "/api/changes").toString())
          .contains("our controls agree with it", "reprint, table 2", "measured in 2024");
    }
    assertThat(violations).isEmpty();
  }

  @Test
  void whatIsSignedStaysAsItWasComparedAndWhatIsOpenFollows() throws Exception {
    try (RunningWorkbench running = RunningWorkbench.in(study())) {
      String at = "/api/studies/" + get(running, "/api/studies").get(0).path("id").asText();
      assertThat(set(running, at)).isEmpty();
      choose(running, "cn-multicentre-2016");
      assertThat(set(running, at)).isEqualTo("cn-multicentre-2016");
      choose(running, "cn-japan-2012");
      assertThat(set(running, at)).isEqualTo("cn-japan-2012");
      ObjectNode signing = MAPPER.createObjectNode();
      signing.put("revision", get(running, at).path("study").path("revision").asLong());
      signing.put("meaning", "reviewed");
      post(running, at + "/signatures", signing.toString(), 200);
      choose(running, "cn-multicentre-2016");
      assertThat(set(running, at)).as("signed").isEqualTo("cn-japan-2012");
      assertThat(RawRequest.own(running, "GET", at + "/exports/report.html").send().body())
          .contains("cn-japan-2012");
      post(running, at + "/notes", "{\"field\":\"comment\",\"text\":\"again\"}", 200);
      assertThat(set(running, at)).as("amended").isEqualTo("cn-multicentre-2016");
      post(running, "/api/limits/choices", choice("sf-voluntary-1992"), 400);
      post(
          running,
          "/api/limits/confirmations",
          "{\"set\":\"sf-voluntary-1992\",\"muscle\":null,\"read\":\"reprint\",\"values\":\"others\"}",
          409);
      post(running, "/api/limits/files/withdrawn", "{\"name\":\"none.csv\",\"reason\":\"x\"}", 404);
      assertThat(running.store().verify()).isEmpty();
    }
  }

  /** One site, analysed and kept. */
  private Path study() throws IOException {
    Path folder = Objects.requireNonNull(temporary);
    Path sites = folder.resolve("sites");
    Path data = folder.resolve("data");
    CommandRun simulated = CommandRun.of("simulate", "--seed", "5", "--sites", "1", "--out", sites);
    assertThat(simulated.exitCode()).as(simulated.errors()).isZero();
    Path recording;
    try (Stream<Path> files = Files.list(sites)) {
      recording = files.filter(file -> file.toString().endsWith(".edf")).findFirst().orElseThrow();
    }
    CommandRun kept =
        CommandRun.of(
            "analyse",
            recording,
            "--muscle",
            "ED",
            "--age",
            "40",
            "--needle",
            "concentric-small",
            "--activation",
            "voluntary",
            "--keep",
            "--data",
            data);
    assertThat(kept.exitCode()).as(kept.errors()).isZero();
    return data;
  }

  private static void addFile(Chromium browser, String row) {
    browser.evaluate(
        "(() => { const all = new DataTransfer(); all.items.add(new File(['"
            + HEAD
            + row
            + "\\\\n'], 'own.csv', { type: 'text/csv' }));"
            + " document.querySelector('input[type=file]').files = all.files; })()");
    browser.press("Check and add …");
    browser.await("document.querySelector('dialog')");
    browser.type("Where the values come from, and why they are used", "measured in 2024");
    browser.evaluate("document.querySelector('dialog button.main').click()");
    browser.await("!document.querySelector('dialog')");
  }

  private static void confirmDeltoid(Chromium browser, List<String> violations) throws Exception {
    browser.press("Confirm values of sf-voluntary-1992 …");
    browser.await("document.querySelector('dialog')");
    browser.evaluate(
        "(() => { const s = document.querySelector('dialog select'); s.value ="
            + " [...s.options].find((o) => o.textContent === 'deltoid').value;"
            + " s.dispatchEvent(new Event('change')); })()");
    browser.await("document.querySelector('dialog table').innerText.includes('deltoid')");
    browser.press("They are as printed");
    browser.await("document.querySelector('dialog').innerText.includes('Say what was read')");
    browser.type("What was read: edition, page, table", "reprint, table 2");
    Screens.look(browser, "limits-confirm", violations);
    browser.press("They are as printed");
    browser.await("document.querySelector('main').innerText.includes('reprint, table 2')");
  }

  private static String text(Chromium browser) {
    return browser.evaluate("document.querySelector('main').innerText").asText();
  }

  /** The set a study is compared with; empty if none. */
  private static String set(RunningWorkbench running, String at) throws IOException {
    return get(running, at).at("/parts/0/summary/limits/set").asText("");
  }

  private static void choose(RunningWorkbench running, String set) throws IOException {
    post(running, "/api/limits/choices", choice(set), 200);
  }

  private static String choice(String set) {
    return "{\"muscle\":\"extensor digitorum\",\"needle\":\"concentric-small\",\"activation\":"
        + "\"voluntary\",\"set\":\""
        + set
        + "\",\"reason\":\"tried\"}";
  }

  private static JsonNode get(RunningWorkbench running, String path) throws IOException {
    return MAPPER.readTree(RawRequest.own(running, "GET", path).send().body());
  }

  private static void post(RunningWorkbench running, String path, String body, int status)
      throws IOException {
    RawRequest.Answer answer = RawRequest.own(running, "POST", path).body(body).send();
    assertThat(answer.status()).as(path + " " + answer.body()).isEqualTo(status);
  }
}
