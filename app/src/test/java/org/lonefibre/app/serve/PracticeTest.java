package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Practice as the server gives it. */
@Tag("endToEnd")
@SuppressWarnings("NullAway.Init")
class PracticeTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final int SIZE = 18;

  @TempDir static @Nullable Path temporary;

  private static RunningWorkbench running;

  @BeforeAll
  static void start() throws IOException {
    running = RunningWorkbench.in(Objects.requireNonNull(temporary).resolve("data"));
  }

  @AfterAll
  static void stop() throws IOException {
    running.close();
  }

  private static JsonNode get(String path) throws IOException {
    RawRequest.Answer answer = RawRequest.own(running, "GET", path).send();
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    return MAPPER.readTree(answer.body());
  }

  private static JsonNode answer(int number, ObjectNode judgement) throws IOException {
    RawRequest.Answer answer =
        RawRequest.own(running, "POST", "/api/practice/1/" + number + "/answers")
            .body(judgement.toString())
            .send();
    assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    return MAPPER.readTree(answer.body());
  }

  /** The truth, learned by a first answer of one person, is given by another. */
  @Test
  void whoKnowsTheTruthScoresAllAndLeavesTheStudyWhereItBelongs() throws IOException {
    Set<String> kinds = new HashSet<>();
    int composite = 0;
    int countable = 0;
    for (int number = 1; number <= SIZE; number++) {
      JsonNode shown = get("/api/practice/1/" + number);
      assertThat(shown.toString()).doesNotContain("grade", "kind", "truth");
      ObjectNode doubtful = MAPPER.createObjectNode().put("grade", "doubtful");
      doubtful.putArray("blockedSweeps");
      JsonNode truth = answer(number, doubtful).path("truth");
      kinds.add(truth.path("kind").asText());
      JsonNode fibres = truth.path("fibres");
      if (fibres.size() > 1) {
        composite++;
        assertThat(truth.path("grade").asText()).isEqualTo("composite");
        assertThat(fibres.get(0).path("amplitudeUv").asDouble())
            .isGreaterThan(fibres.get(1).path("amplitudeUv").asDouble());
      }
      // The largest fibre arrives where the chain found the potential.
      assertThat(fibres.get(0).path("offsetMs").asDouble())
          .isCloseTo(shown.path("offsetMs").asDouble(), org.assertj.core.data.Offset.offset(0.25));
      ObjectNode right = MAPPER.createObjectNode().put("grade", truth.path("grade").asText());
      right.set("blockedSweeps", truth.path("blockedSweeps"));
      if (fibres.size() > 1) {
        right.put("secondFibreMs", fibres.get(1).path("offsetMs").asDouble());
      }
      JsonNode mark = answer(number, right);
      countable += isCountable(mark) ? 1 : 0;
      assertThat(mark.path("mark").path("scorePercent").asInt()).isEqualTo(100);
      assertThat(mark.path("isFirst").asBoolean()).as("the first answer stands").isFalse();
    }
    assertThat(kinds).hasSize(9);
    assertThat(composite).isEqualTo(10);
    JsonNode kept = get("/api/practice?person=Dr%20Example").path("answers");
    assertThat(kept).hasSize(SIZE);
    assertThat(kept.get(0).path("given").asText()).isEqualTo("doubtful");
    JsonNode study = get("/api/practice/1/study?person=Dr%20Example");
    assertThat(study.path("accepted").asInt()).isZero();
    assertThat(study.path("byPerson").path("signals").asInt()).isZero();
    assertThat(study.path("oneFibre").asInt()).isEqualTo(8);
    assertThat(countable).isBetween(1, 8);
    assertThat(study.path("byTruth").path("signals").asInt()).isEqualTo(countable);
    assertThat(study.path("byTruth").path("limits").path("individualUs").asDouble()).isPositive();
  }

  /** One fibre, and nothing but a grade that keeps its signal out: two clusters have no jitter. */
  private static boolean isCountable(JsonNode told) {
    boolean isOut = false;
    for (JsonNode finding : told.path("pair").path("findings")) {
      isOut |=
          finding.path("severity").asText().equals("exclusion")
              && !finding.path("code").asText().equals("composite");
    }
    return !isOut && told.path("truth").path("grade").asText().equals("single-fibre");
  }

  @Test
  void whatIsNoAnswerIsRefused() throws IOException {
    for (String body :
        new String[] {
          "{\"grade\":\"ungraded\",\"blockedSweeps\":[]}",
          "{\"grade\":\"composite\",\"secondFibreMs\":1e9,\"blockedSweeps\":[]}",
          "{\"grade\":\"perhaps\",\"blockedSweeps\":[]}"
        }) {
      assertThat(
              RawRequest.own(running, "POST", "/api/practice/1/1/answers")
                  .body(body)
                  .send()
                  .status())
          .isEqualTo(400);
    }
    assertThat(RawRequest.own(running, "GET", "/api/practice/0/1").send().status()).isEqualTo(404);
    assertThat(RawRequest.own(running, "GET", "/api/practice/1/19").send().status()).isEqualTo(404);
  }
}
