package org.lonefibre.app.serve;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;

/**
 * The distribution's browser without a screen, driven by its DevTools protocol. It notes every
 * address asked for and everything written to its console.
 */
final class Chromium implements AutoCloseable {

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final Duration PATIENCE = Duration.ofSeconds(120);

  private final Process process;
  private final Path profile;
  private final WebSocket socket;
  private final Map<Integer, CompletableFuture<JsonNode>> open = new ConcurrentHashMap<>();
  private final AtomicInteger last = new AtomicInteger();

  /** Addresses asked for. */
  final List<String> requests = new CopyOnWriteArrayList<>();

  /** Errors and violations of the policy. */
  final List<String> complaints = new CopyOnWriteArrayList<>();

  private Chromium(Process process, Path profile, URI page) {
    this.process = process;
    this.profile = profile;
    this.socket =
        HttpClient.newHttpClient().newWebSocketBuilder().buildAsync(page, new Listener()).join();
  }

  static Optional<Path> find() {
    return Stream.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome")
        .map(Path::of)
        .filter(Files::isExecutable)
        .findFirst();
  }

  static Chromium start() throws IOException, InterruptedException {
    Path profile = Files.createTempDirectory("lonefibre-browser");
    Process process =
        new ProcessBuilder(
                find().orElseThrow().toString(),
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-dev-shm-usage",
                "--disable-background-networking",
                "--disable-component-update",
                "--no-first-run",
                "--mute-audio",
                "--autoplay-policy=no-user-gesture-required",
                "--remote-debugging-port=0",
                "--user-data-dir=" + profile,
                "--window-size=1280,900",
                "about:blank")
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    Path port = profile.resolve("DevToolsActivePort");
    long until = System.nanoTime() + PATIENCE.toNanos();
    while (!Files.exists(port) || Files.readAllLines(port).size() < 2) {
      if (System.nanoTime() > until || !process.isAlive()) {
        process.destroyForcibly();
        throw new IOException("the browser did not start");
      }
      process.waitFor(50, TimeUnit.MILLISECONDS);
    }
    String list =
        HttpClient.newHttpClient()
            .send(
                java.net.http.HttpRequest.newBuilder(
                        URI.create("http://127.0.0.1:" + Files.readAllLines(port).get(0) + "/json"))
                    .build(),
                java.net.http.HttpResponse.BodyHandlers.ofString())
            .body();
    for (JsonNode target : MAPPER.readTree(list)) {
      if (target.path("type").asText().equals("page")) {
        Chromium browser =
            new Chromium(
                process, profile, URI.create(target.path("webSocketDebuggerUrl").asText()));
        browser.call("Page.enable", Map.of());
        browser.call("Runtime.enable", Map.of());
        browser.call("Network.enable", Map.of());
        browser.call("Log.enable", Map.of());
        browser.call("Audits.enable", Map.of());
        return browser;
      }
    }
    process.destroyForcibly();
    throw new IOException("the browser has no page");
  }

  JsonNode call(String method, Map<String, ?> parameters) {
    int id = last.incrementAndGet();
    ObjectNode message = MAPPER.createObjectNode().put("id", id).put("method", method);
    message.set("params", MAPPER.valueToTree(parameters));
    CompletableFuture<JsonNode> answer = new CompletableFuture<>();
    open.put(id, answer);
    synchronized (socket) {
      socket.sendText(message.toString(), true).join();
    }
    return answer.orTimeout(PATIENCE.toSeconds(), TimeUnit.SECONDS).join();
  }

  /** The value of an expression; a promise is waited for. */
  JsonNode evaluate(String expression) {
    JsonNode answer =
        call(
            "Runtime.evaluate",
            Map.of(
                "expression",
                expression,
                "awaitPromise",
                true,
                "returnByValue",
                true,
                "userGesture",
                true));
    if (answer.has("exceptionDetails")) {
      throw new AssertionError(expression + ": " + answer.path("exceptionDetails"));
    }
    return answer.path("result").path("value");
  }

  /** Waits in the page, frame by frame, until an expression holds. */
  void await(String expression) {
    JsonNode held =
        evaluate(
            "new Promise((good) => { const until = performance.now() + "
                + PATIENCE.toMillis() * 3 / 4
                + "; const look = () => { let held = false; try { held = Boolean("
                + expression
                + "); } catch { held = false; } if (held) good(true); else if (performance.now() >"
                + " until) good(false); else setTimeout(look, 30); }; look(); })");
    if (!held.asBoolean()) {
      throw new AssertionError(
          "never held: " + expression + "; the page says: " + evaluate("document.body.innerText"));
    }
  }

  void open(String address) {
    call("Page.navigate", Map.of("url", address));
    await("document.readyState === 'complete'");
  }

  /** Presses the control whose words begin so. */
  void press(String words) {
    String find =
        "[...(document.querySelector('dialog[open]') ?? document).querySelectorAll('button, a')].find((b) =>"
            + " (b.getAttribute('aria-label') ?? b.textContent).trim().startsWith("
            + quoted(words)
            + ") && !b.disabled)";
    await(find);
    evaluate(find + ".click()");
  }

  /** Types into the field of a label. */
  void type(String label, String text) {
    String find =
        "[...(document.querySelector('dialog[open]') ?? document).querySelectorAll('label')].find((l) =>"
            + " l.textContent.trim().startsWith("
            + quoted(label)
            + "))";
    await(find);
    evaluate(
        "(() => { const l = "
            + find
            + "; const f = l.control; f.focus(); f.value = "
            + quoted(text)
            + "; f.dispatchEvent(new Event('input', { bubbles: true })); f.dispatchEvent(new"
            + " Event('change', { bubbles: true })); })()");
  }

  /** A key as the keyboard sends it. */
  void key(String key, String code, int number, String text) {
    for (String type : List.of("keyDown", "keyUp")) {
      Map<String, Object> event = new java.util.HashMap<>();
      event.put("type", type);
      event.put("key", key);
      event.put("code", code);
      event.put("windowsVirtualKeyCode", number);
      if (type.equals("keyDown") && !text.isEmpty()) {
        event.put("text", text);
      }
      call("Input.dispatchKeyEvent", event);
    }
  }

  void colours(String scheme) {
    call(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
  }

  /** Emulates features of the display, each as name and value. */
  void display(Map<String, String> features) {
    call(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            features.entrySet().stream()
                .map(one -> Map.of("name", one.getKey(), "value", one.getValue()))
                .toList()));
  }

  /**
   * The whole page. The window is made as high first: what lies below it may not have been painted
   * again since it last changed.
   */
  void picture(Path file) throws IOException {
    Files.createDirectories(java.util.Objects.requireNonNull(file.getParent()));
    JsonNode size = call("Page.getLayoutMetrics", Map.of()).path("cssContentSize");
    call(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width",
            size.path("width").asInt(),
            "height",
            size.path("height").asInt(),
            "deviceScaleFactor",
            1,
            "mobile",
            false));
    JsonNode shot = call("Page.captureScreenshot", Map.of("format", "png"));
    call("Emulation.clearDeviceMetricsOverride", Map.of());
    Files.write(file, Base64.getDecoder().decode(shot.path("data").asText()));
  }

  static String quoted(String text) {
    return MAPPER.valueToTree(text).toString();
  }

  @Override
  public void close() throws IOException {
    socket.abort();
    process.destroy();
    process.onExit().join();
    try (Stream<Path> files = Files.walk(profile)) {
      List<Path> all = new ArrayList<>(files.sorted(java.util.Comparator.reverseOrder()).toList());
      for (Path file : all) {
        Files.deleteIfExists(file);
      }
    } catch (IOException | java.io.UncheckedIOException e) {
      // A late process of the browser still writes; the folder is temporary.
    }
  }

  private final class Listener implements WebSocket.Listener {

    private final StringBuilder text = new StringBuilder();

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence part, boolean isLast) {
      text.append(part);
      if (isLast) {
        try {
          take(MAPPER.readTree(text.toString()));
        } catch (IOException e) {
          complaints.add("unreadable: " + e);
        }
        text.setLength(0);
      }
      from.request(1);
      return CompletableFuture.completedFuture(null);
    }

    private void take(JsonNode message) {
      CompletableFuture<JsonNode> answer = open.remove(message.path("id").asInt(-1));
      if (answer != null) {
        if (message.has("error")) {
          answer.completeExceptionally(new AssertionError(message.path("error").toString()));
        } else {
          answer.complete(message.path("result"));
        }
        return;
      }
      JsonNode of = message.path("params");
      switch (message.path("method").asText()) {
        case "Network.requestWillBeSent" -> requests.add(of.path("request").path("url").asText());
        case "Runtime.exceptionThrown" -> complaints.add(of.path("exceptionDetails").toString());
        case "Runtime.consoleAPICalled" -> {
          if (List.of("error", "warning", "assert").contains(of.path("type").asText())) {
            complaints.add(of.path("args").toString());
          }
        }
        case "Log.entryAdded" -> {
          if (List.of("error", "warning").contains(of.path("entry").path("level").asText())) {
            complaints.add(of.path("entry").path("text").asText());
          }
        }
        case "Audits.issueAdded" -> {
          String code = of.path("issue").path("code").asText();
          if (code.contains("ContentSecurityPolicy")) {
            complaints.add(of.path("issue").toString());
          }
        }
        default -> {}
      }
    }
  }
}
