package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.validation.cases.CaseLibrary;
import org.lonefibre.validation.cases.LibraryCase;

/** The case library as the server gives it to a learner. */
@Tag("endToEnd")
@SuppressWarnings("NullAway.Init")
class PitfallPracticeTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

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

  private static RawRequest.Answer say(int number, String choice) throws IOException {
    return RawRequest.own(running, "POST", "/api/pitfalls/" + number + "/answers")
        .body(MAPPER.createObjectNode().put("choice", choice).toString())
        .send();
  }

  /** The whole library comes, its truth only after an answer, and as the library has it. */
  @Test
  void eachCaseOfTheLibraryIsJudgedOnceAndItsTruthIsThatOfTheLibrary() throws IOException {
    JsonNode known = get("/api/pitfalls?person=Dr%20Example");
    Set<String> choices = new HashSet<>();
    known.path("choices").forEach(choice -> choices.add(choice.path("code").asText()));
    int size = known.path("size").asInt();
    Set<String> cases = new TreeSet<>();
    StringBuilder order = new StringBuilder();
    for (int number = 1; number <= size; number++) {
      JsonNode shown = get("/api/pitfalls/" + number);
      assertThat(shown.toString())
          .doesNotContain("grade", "finding", "truth", "status", "severity", "control");
      assertThat(shown.path("units")).isNotEmpty();
      JsonNode told = MAPPER.readTree(say(number, "none").body());
      String name = told.path("case").asText();
      LibraryCase of =
          CaseLibrary.listAll().stream().filter(one -> one.id().equals(name)).findFirst().get();
      cases.add(name);
      order.append(told.path("isThere").asBoolean() ? '1' : '0');
      assertThat(told.path("truth").asText()).isEqualTo(of.truth());
      assertThat(told.path("isThere").asBoolean()).isEqualTo(of.raised());
      assertThat(told.path("isRaised").asBoolean()).as(name).isEqualTo(of.raised());
      assertThat(told.path("isRight").asBoolean()).isEqualTo(!of.raised());
      String expected = told.path("expected").asText();
      assertThat(choices).contains(expected);
      if (of.raised()) {
        assertThat(told.path("findings"))
            .as("the reason of the program is among them")
            .anyMatch(finding -> finding.path("code").asText().equals(expected));
      }
      JsonNode again = MAPPER.readTree(say(number, expected).body());
      assertThat(again.path("isRight").asBoolean()).isTrue();
      assertThat(again.path("isFirst").asBoolean()).as("the first answer stands").isFalse();
    }
    assertThat(cases)
        .isEqualTo(
            CaseLibrary.listAll().stream()
                .map(LibraryCase::id)
                .collect(Collectors.toCollection(TreeSet::new)));
    assertThat(order.toString()).as("with and without do not take turns").contains("11", "00");
    JsonNode kept = get("/api/pitfalls?person=Dr%20Example").path("answers");
    assertThat(kept).hasSize(size);
    assertThat(kept).allMatch(answer -> answer.path("given").asText().equals("none"));
    assertThat(get("/api/practice?person=Dr%20Example").path("answers"))
        .as("the library is no round of drawn cases")
        .isEmpty();
    assertThat(running.store().verify()).isEmpty();
  }

  @Test
  void theRecordingOfACaseCanBeSeenAndHeard() throws IOException {
    JsonNode site = get("/api/pitfalls/1").path("site");
    assertThat(site.path("endS").asDouble()).isGreaterThan(5);
    RawRequest.Answer strip =
        RawRequest.own(running, "GET", "/api/pitfalls/1/strip?startS=0&endS=2&columns=100").send();
    assertThat(strip.status()).isEqualTo(200);
    RawRequest.Answer sound =
        RawRequest.own(running, "GET", "/api/pitfalls/1/sound?startS=1").send();
    assertThat(sound.status()).isEqualTo(200);
  }

  @Test
  void whatIsNoAnswerIsRefused() throws IOException {
    assertThat(say(1, "perhaps").status()).isEqualTo(400);
    assertThat(say(1, "").status()).isEqualTo(400);
    int size = get("/api/pitfalls?person=Dr%20Example").path("size").asInt();
    assertThat(RawRequest.own(running, "GET", "/api/pitfalls/" + (size + 1)).send().status())
        .isEqualTo(404);
    assertThat(RawRequest.own(running, "GET", "/api/pitfalls/0").send().status()).isEqualTo(404);
  }
}
