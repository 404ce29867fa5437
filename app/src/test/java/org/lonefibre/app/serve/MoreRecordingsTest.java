package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.demo.DemoFiles;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.Source;

/** Recordings are cut by hand and added to a study in which something was decided already. */
class MoreRecordingsTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir @Nullable Path temporary;

  @Test
  void whatIsAddedComesBehindAndDecisionsStay() throws Exception {
    Path folder = Objects.requireNonNull(temporary);
    Analyst.Demo demo = DemoFiles.write(Files.createDirectories(folder.resolve("files")));
    List<Source> sources = demo.declaration().parts().get(0).sources();
    try (RunningWorkbench running = RunningWorkbench.in(folder.resolve("data"))) {
      String study =
          post(running, "/api/studies", "{\"title\":\"A\",\"subjectCode\":null,\"ageYears\":40}")
              .path("study")
              .path("id")
              .asText();
      String first = kept(running, demo.files().apply(sources.get(0)));
      add(running, study, first, "early", "0", "4");
      String site = "/api/studies/" + study + "/parts/0/sites/0";
      JsonNode before = get(running, site);
      assertThat(before.path("site").path("endS").asDouble()).isEqualTo(4);
      String signal =
          before.path("site").path("motorUnits").path(0).path("pairs").path(0).path("id").asText();
      post(
          running,
          site + "/decisions",
          "{\"stepName\":\"Exclude a sweep\",\"decision\":{\"kind\":\"sweeps\",\"signal\":\""
              + signal
              + "\",\"firstSweep\":5,\"lastSweep\":5,\"mark\":\"excluded\",\"reason\":\"moved\"}}");
      add(running, study, first, "late", "4", "null");
      add(
          running,
          study,
          kept(running, demo.files().apply(sources.get(1))),
          "next",
          "null",
          "null");

      JsonNode after = get(running, "/api/studies/" + study);
      assertThat(after.path("parts")).hasSize(1);
      assertThat(after.path("parts").path(0).path("sites"))
          .extracting(one -> one.path("site").asText())
          .containsExactly("early", "late", "next");
      JsonNode now = get(running, site);
      assertThat(now.path("automatic")).isEqualTo(before.path("automatic"));
      assertThat(now.path("steps").path(0).path("state").asText()).isEqualTo("active");
      assertThat(
              now.path("site")
                  .path("motorUnits")
                  .path(0)
                  .path("pairs")
                  .path(0)
                  .path("excludedSweeps")
                  .asInt())
          .isEqualTo(1);
      assertThat(
              get(running, "/api/studies/" + study + "/parts/0/sites/1")
                  .path("site")
                  .path("startS")
                  .asDouble())
          .isEqualTo(4);
      assertThat(running.store().verify()).isEmpty();
    }
  }

  private static String kept(RunningWorkbench running, Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return running
          .store()
          .keepRecording(in, String.valueOf(file.getFileName()), 1L << 30)
          .sha256();
    }
  }

  private static void add(
      RunningWorkbench running,
      String study,
      String sha256,
      String name,
      String startS,
      String endS)
      throws IOException {
    String job =
        post(
                running,
                "/api/studies/" + study + "/imports",
                "{\"muscle\":\"extensor digitorum\",\"side\":\"right\",\"needle\":\"single-fibre\","
                    + "\"activation\":\"voluntary\",\"limits\":null,\"sources\":[{\"sha256\":\""
                    + sha256
                    + "\",\"fileName\":\"x.edf\",\"site\":\""
                    + name
                    + "\",\"channel\":null,\"stimulusChannel\":null,\"startS\":"
                    + startS
                    + ",\"endS\":"
                    + endS
                    + "}]}")
            .path("id")
            .asText();
    String events =
        RawRequest.own(running, "GET", "/api/jobs/" + job + "/events")
            .with("Accept", "text/event-stream")
            .send()
            .body();
    assertThat(events).contains("\"state\":\"done\"");
  }

  private static JsonNode get(RunningWorkbench running, String path) throws IOException {
    return MAPPER.readTree(RawRequest.own(running, "GET", path).send().body());
  }

  private static JsonNode post(RunningWorkbench running, String path, String body)
      throws IOException {
    return MAPPER.readTree(RawRequest.own(running, "POST", path).body(body).send().body());
  }
}
