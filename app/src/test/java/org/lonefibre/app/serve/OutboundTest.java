package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import jdk.jfr.Recording;
import jdk.jfr.consumer.RecordedEvent;
import jdk.jfr.consumer.RecordingFile;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The program talks to nobody but this computer, as the virtual machine itself records. */
@Tag("endToEnd")
class OutboundTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir @Nullable Path temporary;

  @Test
  void everyByteSentOrReceivedStaysOnThisComputer() throws Exception {
    Path folder = Objects.requireNonNull(temporary);
    try (Recording sockets = new Recording()) {
      for (String event : List.of("jdk.SocketRead", "jdk.SocketWrite")) {
        sockets.enable(event).withThreshold(Duration.ZERO);
      }
      sockets.start();
      int served;
      try (RunningWorkbench running = RunningWorkbench.in(folder.resolve("data"))) {
        served = work(running);
      }
      sockets.stop();
      sockets.dump(folder.resolve("sockets.jfr"));
      assertThat(served).isGreaterThan(8);
    }
    List<RecordedEvent> events =
        RecordingFile.readAllEvents(folder.resolve("sockets.jfr")).stream()
            .filter(event -> event.getEventType().getName().startsWith("jdk.Socket"))
            .toList();
    // The requests of this test are among them, or nothing was watched.
    assertThat(events).hasSizeGreaterThan(8);
    for (RecordedEvent event : events) {
      String address = event.getString("address");
      assertThat(address == null || InetAddress.getByName(address).isLoopbackAddress())
          .as("%s", event)
          .isTrue();
    }
  }

  /** Most of what the program does: makes a study, looks at a site, exports, practises. */
  private static int work(RunningWorkbench running) throws IOException, InterruptedException {
    String job =
        MAPPER
            .readTree(RawRequest.own(running, "POST", "/api/demo").body("{}").send().body())
            .path("id")
            .asText();
    RawRequest.own(running, "GET", "/api/jobs/" + job + "/events")
        .with("Accept", "text/event-stream")
        .send();
    JsonNode list = MAPPER.readTree(get(running, "/api/studies"));
    String study = "/api/studies/" + list.get(0).path("id").asText();
    List<String> paths =
        List.of(
            study,
            study + "/parts/0/sites/2",
            study + "/parts/0/sites/2/strip?startS=0&endS=8&columns=500",
            study + "/exports/report.html",
            study + "/exports/report.pdf",
            study + "/exports/report.fhir-r4.json",
            study + "/exports/report.dcm",
            study + "/effects",
            "/api/limits",
            "/api/verification",
            "/api/practice/1/1");
    for (String path : paths) {
      get(running, path);
    }
    return paths.size();
  }

  private static String get(RunningWorkbench running, String path)
      throws IOException, InterruptedException {
    HttpResponse<String> answer =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(
                        URI.create("http://127.0.0.1:" + running.workbench().port() + path))
                    .header("Authorization", "Bearer " + running.token())
                    .header("Sec-Fetch-Site", "same-origin")
                    .build(),
                HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(path).isEqualTo(200);
    return answer.body();
  }
}
