package org.lonefibre.app.serve;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * How fast the workbench is, in figures for docs/benchmarks.md; not a test. Run by
 * benchmarks/workbench.sh with an empty folder and, for the import, a folder of recordings; a third
 * folder holds recordings of an hour.
 */
final class WorkbenchSpeed {

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final HttpClient CLIENT = HttpClient.newHttpClient();

  private final String address;
  private final String token;

  private WorkbenchSpeed(String opened) {
    this.address = opened.substring(0, opened.indexOf("/#"));
    this.token = opened.substring(opened.indexOf("token=") + 6);
  }

  public static void main(String[] args) throws Exception {
    Path folder = Path.of(args[0]);
    Process first = serve(folder);
    try {
      WorkbenchSpeed speed = new WorkbenchSpeed(ready(first));
      String study = speed.work("/api/demo", "{}").path("study").asText();
      if (args.length > 1) {
        speed.importing(Path.of(args[1]));
      }
      // Touched last, it is the one at hand after the start.
      speed.post(
          "/api/studies/" + study + "/notes", "{\"field\":\"comment\",\"text\":\"measured\"}");
    } finally {
      stop(first);
    }
    if (args.length > 2) {
      hour(folder.resolveSibling("hour-data"), Path.of(args[2]));
    }
    for (int round = 0; round < 3; round++) {
      long begun = System.nanoTime();
      Process again = serve(folder);
      try {
        WorkbenchSpeed speed = new WorkbenchSpeed(ready(again));
        say("serve ready", begun);
        long asked = System.nanoTime();
        JsonNode list = speed.get("/api/studies");
        say("list of studies right after the start", asked);
        asked = System.nanoTime();
        speed.get("/api/studies/" + list.get(0).path("id").asText());
        say("study of 20 sites right after the start", asked);
        asked = System.nanoTime();
        speed.get("/api/studies/" + list.get(0).path("id").asText());
        say("the same again", asked);
        if (round == 2) {
          speed.decisions(list.get(0).path("id").asText());
          speed.memory(again);
          speed.frames(list.get(0).path("id").asText());
        }
      } finally {
        stop(again);
      }
    }
  }

  /** As a person starts it, by the launcher in the folder it is run from. */
  private static Process serve(Path folder) throws IOException {
    ProcessBuilder launcher =
        new ProcessBuilder("./lonefibre", "serve", "--data", folder.toString(), "--no-browser");
    launcher.environment().put("LONEFIBRE_JAVA_OPTS", "-Xmx512m");
    return launcher.redirectError(ProcessBuilder.Redirect.DISCARD).start();
  }

  private static String ready(Process process) throws IOException {
    BufferedReader out =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    for (String line = out.readLine(); line != null; line = out.readLine()) {
      if (line.startsWith("Lonefibre is at ")) {
        return line.substring(16);
      }
    }
    throw new IOException("the workbench did not start");
  }

  private static void stop(Process process) {
    process.destroy();
    process.onExit().join();
  }

  private static void say(String what, long sinceNs) {
    say(what, (System.nanoTime() - sinceNs) / 1e6, "ms");
  }

  private static void say(String what, double value, String unit) {
    System.out.printf(Locale.ROOT, "%-60s %8.0f %s%n", what, value, unit);
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(address + path))
        .header("Authorization", "Bearer " + token)
        .header("Origin", address)
        .header("Sec-Fetch-Site", "same-origin")
        .header("Lonefibre-Request", "1")
        .header("Lonefibre-Person", "Measurer");
  }

  private JsonNode get(String path) throws IOException, InterruptedException {
    return answer(request(path).build());
  }

  private JsonNode post(String path, String body) throws IOException, InterruptedException {
    return answer(
        request(path)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body))
            .build());
  }

  private static JsonNode answer(HttpRequest request) throws IOException, InterruptedException {
    HttpResponse<String> response = CLIENT.send(request, HttpResponse.BodyHandlers.ofString());
    if (response.statusCode() >= 300) {
      throw new IOException(request.uri().getPath() + ": " + response.body());
    }
    return MAPPER.readTree(response.body());
  }

  /** Begins work and waits for its end by its events. */
  private JsonNode work(String path, String body) throws IOException, InterruptedException {
    String job = post(path, body).path("id").asText();
    CLIENT.send(
        request("/api/jobs/" + job + "/events").header("Accept", "text/event-stream").build(),
        HttpResponse.BodyHandlers.ofString());
    return get("/api/jobs/" + job);
  }

  private String importing(Path folder) throws IOException, InterruptedException {
    String study =
        post("/api/studies", "{\"title\":\"Import\",\"subjectCode\":null,\"ageYears\":null}")
            .path("study")
            .path("id")
            .asText();
    List<String> sources = new ArrayList<>();
    long begun = System.nanoTime();
    try (Stream<Path> files = Files.list(folder)) {
      Predicate<Path> isRecording = file -> file.toString().endsWith(".edf");
      for (Path file : files.filter(isRecording).sorted().toList()) {
        JsonNode preview =
            answer(
                request("/api/recordings")
                    .header("Content-Type", "application/octet-stream")
                    .header("Lonefibre-File-Name", String.valueOf(file.getFileName()))
                    .POST(HttpRequest.BodyPublishers.ofFile(file))
                    .build());
        sources.add(
            "{\"sha256\":\""
                + preview.path("sha256").asText()
                + "\",\"fileName\":\""
                + file.getFileName()
                + "\",\"site\":null,\"channel\":null,\"stimulusChannel\":null,\"startS\":null,"
                + "\"endS\":null}");
      }
    }
    say("receiving " + sources.size() + " recordings", begun);
    begun = System.nanoTime();
    JsonNode ended =
        work(
            "/api/studies/" + study + "/imports",
            "{\"muscle\":null,\"side\":null,\"needle\":\"single-fibre\",\"activation\":null,"
                + "\"limits\":null,\"sources\":["
                + String.join(",", sources)
                + "]}");
    say("measuring them (" + ended.path("state").asText() + ")", begun);
    return study;
  }

  private void decisions(String study) throws IOException, InterruptedException {
    String site = "/api/studies/" + study + "/parts/0/sites/2";
    String signal =
        get(site).path("site").path("motorUnits").get(0).path("pairs").get(0).path("id").asText();
    for (int sweep = 5; sweep < 15; sweep++) {
      double ms =
          post(
                  site + "/decisions",
                  "{\"stepName\":\"x\",\"decision\":{\"kind\":\"sweeps\",\"signal\":\""
                      + signal
                      + "\",\"firstSweep\":"
                      + sweep
                      + ",\"lastSweep\":"
                      + sweep
                      + ",\"mark\":\"excluded\",\"reason\":\"measured\"}}")
              .path("recomputedInMs")
              .asDouble();
      say("decision " + (sweep - 4) + ", computed and saved", ms, "ms");
    }
    long begun = System.nanoTime();
    work(
        site + "/measurements",
        "{\"stepName\":\"x\",\"decision\":{\"kind\":\"filter\",\"highPassHz\":1000,"
            + "\"reason\":\"measured\"}}");
    say("site measured again with another filter", begun);
  }

  private void memory(Process process) throws IOException {
    Path status = Path.of("/proc", Long.toString(process.pid()), "status");
    if (Files.exists(status)) {
      for (String line : Files.readAllLines(status)) {
        if (line.startsWith("VmRSS")) {
          say("memory in use", Double.parseDouble(line.replaceAll("[^0-9]", "")) / 1024, "MB");
        }
      }
    }
  }

  /** An hour at 50 kHz: measured, opened, moved and zoomed at three widths of the strip. */
  private static void hour(Path folder, Path recordings) throws Exception {
    Process process = serve(folder);
    try {
      WorkbenchSpeed speed = new WorkbenchSpeed(ready(process));
      String study = speed.importing(recordings);
      if (Chromium.find().isPresent()) {
        try (Chromium browser = Chromium.start()) {
          browser.open(speed.address + "/#token=" + speed.token);
          browser.await("document.querySelector('main table')");
          long begun = System.nanoTime();
          browser.evaluate("location.hash = '#/study/" + study + "/0/0'");
          browser.await("document.querySelector('canvas[aria-label^=\"Recording, the part\"]')");
          say("site page of an hour", begun);
          browser.await("document.querySelector('[data-strip=\"there\"]')");
          say("its strip drawn", begun);
          for (double spanS : new double[] {3600, 60, 1}) {
            browser.evaluate(
                "(() => { const at = (label, value) => { const f ="
                    + " [...document.querySelectorAll('label')].find((l) =>"
                    + " l.textContent.startsWith(label)).control; f.value = value;"
                    + " f.dispatchEvent(new Event('change')); }; at('Shown from', 0); at('to, s', "
                    + spanS
                    + "); if ("
                    + spanS
                    + " < 3600) at('Shown from', 1800); })()");
            browser.evaluate("new Promise((good) => setTimeout(good, 1500))");
            for (String way : List.of("pan", "zoom")) {
              frames(browser, "strip of " + (int) spanS + " s, " + way, STRIP, way);
            }
          }
          speed.memory(process);
        }
      }
    } finally {
      stop(process);
    }
  }

  private static final String STRIP = "canvas[aria-label^=\"Recording, the part\"]";

  /**
   * Frames a second while the strip of a site is moved and zoomed, with its sweeps superimposed.
   */
  private void frames(String study) throws Exception {
    if (Chromium.find().isEmpty()) {
      return;
    }
    try (Chromium browser = Chromium.start()) {
      browser.open(address + "/#token=" + token);
      browser.await("document.querySelector('main table')");
      long begun = System.nanoTime();
      browser.evaluate("location.hash = '#/study/" + study + "'");
      browser.await("document.querySelector('main canvas')?.width > 300");
      say("study page drawn", begun);
      begun = System.nanoTime();
      browser.evaluate("location.hash = '#/study/" + study + "/0/2'");
      browser.await("document.querySelector('article.sheet canvas')");
      say("site page drawn", begun);
      browser.evaluate("new Promise((good) => setTimeout(good, 2000))");
      for (String way : List.of("pan", "zoom", "sweep")) {
        frames(browser, way, STRIP, way);
      }
      browser.evaluate("location.hash = '#/study/" + study + "'");
      browser.press("Show the sites side by side");
      browser.await("document.querySelectorAll('canvas[aria-label^=\"Site \"]').length > 15");
      browser.evaluate("document.querySelector('canvas[aria-label^=\"Site \"]').scrollIntoView()");
      for (String way : List.of("pan", "zoom")) {
        frames(browser, "20 linked sites, " + way, "canvas[aria-label^=\"Site \"]", way);
      }
    }
  }

  private static void frames(Chromium browser, String name, String canvas, String way) {
    JsonNode frames =
        browser.evaluate(
            "new Promise((good) => { const strip = document.querySelector('"
                + canvas
                + "'); const more = document.querySelectorAll('main button'); const box ="
                + " strip.getBoundingClientRect(); const wheel = (y) => strip.dispatchEvent(new"
                + " WheelEvent('wheel', { deltaY: y, clientX: box.left + 300, clientY: box.top"
                + " + 20, bubbles: true, cancelable: true })); for (let i = 0; i < 6; i++)"
                + " wheel(-1); const times = []; let n = 0; const next = (t) => {"
                + " times.push(t); n++; if ('"
                + way
                + "' === 'pan') strip.dispatchEvent(new KeyboardEvent('keydown', { key: n % 40"
                + " < 20 ? 'ArrowRight' : 'ArrowLeft', bubbles: true, cancelable: true }));"
                + " else if ('"
                + way
                + "' === 'zoom') wheel(n % 20 < 10 ? -1 : 1); else { const b ="
                + " [...more].find((x) => x.textContent === (n % 40 < 20 ? 'Next' :"
                + " 'Before')); b?.click(); } if (n < 200) requestAnimationFrame(next); else {"
                + " const gaps = times.slice(1).map((x, i) => x - times[i]).sort((a, b) => a -"
                + " b); good([1000 * (times.length - 1) / (times[times.length - 1] - times[0]),"
                + " gaps[Math.floor(gaps.length * 0.95)]]); } }; requestAnimationFrame(next);"
                + " })");
    say("frames a second, " + name, frames.get(0).asDouble(), "");
    say("  95 % of frames within", frames.get(1).asDouble(), "ms");
  }
}
