package org.lonefibre.app.demo;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** The demo study as its report tells it. */
final class DemoCommandTest {

  @Test
  @Tag("endToEnd")
  void theReportTellsTheStoryThatWasPutIntoTheRecordings(@TempDir Path folder) throws Exception {
    CommandRun demo = CommandRun.of("demo", "--out", folder.toString());
    assertThat(demo.exitCode()).as(demo.errors()).isZero();
    ObjectMapper mapper = new ObjectMapper();
    JsonNode truth = mapper.readTree(folder.resolve("recordings/truth.json").toFile());
    assertThat(truth.path("needle").asText()).isEqualTo("single-fibre, solved in muscle");
    JsonNode sites =
        mapper
            .readTree(folder.resolve("analysis.json").toFile())
            .path("studies")
            .path(0)
            .path("recordings");
    assertThat(sites).hasSize(20);
    Map<Integer, List<String>> left = new TreeMap<>();
    List<Integer> blocking = new ArrayList<>();
    int measured = 0;
    for (int i = 0; i < sites.size(); i++) {
      for (JsonNode unit : sites.get(i).path("motorUnits")) {
        for (JsonNode pair : unit.path("pairs")) {
          if (pair.path("status").asText().equals("measured")) {
            measured++;
          } else {
            left.computeIfAbsent(i + 1, site -> new ArrayList<>())
                .addAll(pair.path("findings").findValuesAsText("code"));
          }
          if (pair.path("blockingPercent").asDouble() > 0) {
            blocking.add(i + 1);
          }
        }
      }
    }
    assertThat(measured).isEqualTo(20);
    assertThat(left.keySet()).containsExactly(6, 10, 14, 15);
    assertThat(left.get(6)).contains("composite");
    assertThat(left.get(10)).contains("low-jitter");
    assertThat(left.get(14)).contains("two-clusters").doesNotContain("composite");
    assertThat(left.get(15)).contains("composite");
    assertThat(blocking).containsExactly(8, 12, 17);
  }
}
