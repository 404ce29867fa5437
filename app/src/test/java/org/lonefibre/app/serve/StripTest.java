package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.FloatBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** The strip of a long site, from the recording and from what was kept of it. */
@Tag("endToEnd")
class StripTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir @Nullable Path temporary;

  private static FloatBuffer strip(
      RunningWorkbench running, String site, double startS, double endS, int columns)
      throws Exception {
    byte[] bytes =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(
                        URI.create(
                            String.format(
                                Locale.ROOT,
                                "http://127.0.0.1:%d%s/strip?startS=%s&endS=%s&columns=%d",
                                running.workbench().port(),
                                site,
                                startS,
                                endS,
                                columns)))
                    .header("Authorization", "Bearer " + running.token())
                    .header("Sec-Fetch-Site", "same-origin")
                    .build(),
                HttpResponse.BodyHandlers.ofByteArray())
            .body();
    assertThat(bytes).hasSize(8 * columns);
    return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asFloatBuffer();
  }

  /** The strip of a long site is kept; a changed file of it is not believed. */
  @Test
  void theStripOfALongSiteIsTheSameWhereverItComesFrom() throws Exception {
    Path data = longSite();
    float[] first = whole(data);
    Path kept = derived(data);
    byte[] content = Files.readAllBytes(kept);
    assertThat(whole(data)).as("from what was kept").isEqualTo(first);
    byte[] changed = content.clone();
    for (int at = 40; at < changed.length; at += 4) {
      changed[at] ^= 0x55;
    }
    Files.write(kept, changed);
    assertThat(whole(data)).as("the file was changed").isEqualTo(first);
    assertThat(Files.readAllBytes(derived(data))).as("kept again").isEqualTo(content);
    Files.delete(kept);
    assertThat(whole(data)).as("the file was deleted").isEqualTo(first);
    assertThat(Files.readAllBytes(derived(data))).isEqualTo(content);
  }

  private Path longSite() throws Exception {
    Path folder = Objects.requireNonNull(temporary);
    Path sites = folder.resolve("sites");
    Path data = folder.resolve("long");
    CommandRun simulated =
        CommandRun.of(
            "simulate", "--seed", "5", "--sites", "1", "--duration-s", "90", "--out", sites);
    assertThat(simulated.exitCode()).as(simulated.errors()).isZero();
    CommandRun kept =
        CommandRun.of("analyse", sites.resolve("site01.edf"), "--keep", "--data", data);
    assertThat(kept.exitCode()).as(kept.errors()).isZero();
    return data;
  }

  private static Path derived(Path data) throws IOException {
    try (var files = Files.list(data.resolve("derived"))) {
      List<Path> all = files.toList();
      assertThat(all).hasSize(1);
      return all.get(0);
    }
  }

  /** The whole strip of the one site, by a workbench that is started for it. */
  private static float[] whole(Path data) throws Exception {
    try (RunningWorkbench running = RunningWorkbench.in(data)) {
      JsonNode list = MAPPER.readTree(RawRequest.own(running, "GET", "/api/studies").send().body());
      String site = "/api/studies/" + list.get(0).path("id").asText() + "/parts/0/sites/0";
      FloatBuffer values = strip(running, site, 0, 90, 1000);
      float[] all = new float[values.remaining()];
      values.get(all);
      return all;
    }
  }
}
