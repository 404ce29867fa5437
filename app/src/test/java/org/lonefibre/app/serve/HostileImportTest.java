package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.model.simulation.DemoStudy;
import org.lonefibre.signal.recording.Recording;

/** Recordings come in through the page, their labels hostile: they are shown, and do nothing. */
@Tag("endToEnd")
class HostileImportTest {

  private static final String LABEL = "<img onerror=1>";
  private static final String NAME = "=1+1<img src=x>.edf";
  private static final int LABEL_BYTE = 256;

  @TempDir @Nullable Path temporary;

  private Path hostile() throws IOException {
    Path folder = Objects.requireNonNull(temporary);
    Path file = folder.resolve(NAME);
    try (Recording recording = DemoStudy.plan().simulate(0)) {
      RecordingDoor.write(recording, "A-1", file);
    }
    byte[] bytes = Files.readAllBytes(file);
    byte[] label = String.format("%-16s", LABEL).getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(label, 0, bytes, LABEL_BYTE, label.length);
    Files.write(file, bytes);
    return file;
  }

  @Test
  void hostileLabelsAreShownAndDoNothing() throws Exception {
    assumeTrue(Chromium.find().isPresent(), "no browser is installed (package chromium)");
    Path file = hostile();
    Path broken = Objects.requireNonNull(temporary).resolve("page.edf");
    Files.writeString(broken, "<!doctype html><script>document.title = 'taken'</script>");
    try (Chromium browser = Chromium.start();
        RunningWorkbench running =
            RunningWorkbench.in(Objects.requireNonNull(temporary).resolve("data"))) {
      browser.open(running.workbench().address());
      browser.await("document.body.innerText.includes('Nothing is kept yet')");
      browser.type("Working as", "<script>Dr</script>");
      browser.press("New study");
      browser.type("Title", "<b onmouseover=alert(1)>Hostile</b>");
      browser.type("Subject code", "A-1");
      browser.type("Age in years", "52");
      browser.press("Begin");
      browser.await("document.querySelector('input[type=file]')");
      choose(browser, file, broken);
      browser.await("document.querySelectorAll('main tbody tr').length === 2");
      assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
          .contains(LABEL, NAME, "not read");
      browser.type("Muscle", "extensor digitorum");
      browser.type("Needle", "single-fibre");
      browser.press("Import and measure 1 recording");
      browser.await("document.querySelector('main figure canvas')");
      browser.evaluate("location.hash += '/0/0'");
      browser.await("document.querySelector('article.sheet canvas')");
      assertThat(browser.evaluate("document.querySelector('main').innerText").asText())
          .contains(LABEL, NAME, "<b onmouseover=alert(1)>Hostile</b>");
      assertThat(
              browser
                  .evaluate("document.querySelectorAll('main img, main b, main script').length")
                  .asInt())
          .isZero();
      assertThat(browser.evaluate("document.title").asText()).startsWith("Site");
      assertThat(browser.complaints).isEmpty();
      assertThat(csv(running)).contains("'=1+1");
      assertThat(browser.requests).noneMatch(url -> url.contains("/x") && !url.contains("/api/"));
    }
  }

  private static String csv(RunningWorkbench running) throws IOException {
    String id = running.store().studies().list("").get(0).id();
    return RawRequest.own(running, "GET", "/api/studies/" + id + "/exports/signals.csv")
        .send()
        .body();
  }

  private static void choose(Chromium browser, Path... files) {
    int root = browser.call("DOM.getDocument", Map.of()).path("root").path("nodeId").asInt();
    int field =
        browser
            .call("DOM.querySelector", Map.of("nodeId", root, "selector", "input[type=file]"))
            .path("nodeId")
            .asInt();
    browser.call(
        "DOM.setFileInputFiles",
        Map.of("nodeId", field, "files", List.of(files).stream().map(Path::toString).toList()));
  }
}
