package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The server and its OpenAPI document say the same. */
@Tag("contract")
@SuppressWarnings("NullAway.Init")
class ApiContractTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir static @Nullable Path temporary;

  private static RunningWorkbench running;
  private static JsonNode document;
  private static String study;

  @BeforeAll
  static void start() throws IOException {
    running = RunningWorkbench.in(Objects.requireNonNull(temporary).resolve("data"));
    document = MAPPER.readTree(get("/api/openapi.json").body());
    study =
        MAPPER
            .readTree(
                post("/api/studies", "{\"title\":\"A\",\"subjectCode\":null,\"ageYears\":40}")
                    .body())
            .path("study")
            .path("id")
            .asText();
  }

  @AfterAll
  static void stop() throws IOException {
    running.close();
  }

  private static RawRequest.Answer get(String path) throws IOException {
    return RawRequest.own(running, "GET", path).send();
  }

  private static RawRequest.Answer post(String path, String body) throws IOException {
    return RawRequest.own(running, "POST", path).body(body).send();
  }

  @Test
  void whatIsServedIsDescribedAndTheReverse() {
    List<String> described = new ArrayList<>();
    document
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .fieldNames()
                    .forEachRemaining(
                        method ->
                            described.add(method.toUpperCase(Locale.ROOT) + " " + path.getKey())));
    List<String> served =
        running.workbench().listRoutes().stream()
            .filter(route -> route.contains(" /api/"))
            .toList();
    assertThat(described).containsExactlyInAnyOrderElementsOf(served);
  }

  private static void fits(String template, String method, RawRequest.Answer answer)
      throws IOException {
    JsonNode schema =
        document
            .path("paths")
            .path(template)
            .path(method)
            .path("responses")
            .path(Integer.toString(answer.status()))
            .path("content")
            .path("application/json")
            .path("schema");
    assertThat(schema.isMissingNode()).as("%s %s %s", method, template, answer).isFalse();
    ObjectNode whole = MAPPER.createObjectNode();
    whole.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    whole.set("components", document.path("components"));
    whole.set("allOf", MAPPER.createArrayNode().add(schema));
    assertThat(
            SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(whole.toString(), InputFormat.JSON)
                .validate(answer.body(), InputFormat.JSON))
        .as("%s %s: %s", method, template, answer.body())
        .isEmpty();
  }

  @Test
  void answersAreAsDescribed() throws IOException {
    for (String path :
        List.of(
            "/api/session", "/api/limits", "/api/changes", "/api/verification", "/api/studies")) {
      fits(path, "get", get(path));
    }
    fits("/api/studies/{study}", "get", get("/api/studies/" + study));
    fits("/api/studies/{study}/effects", "get", get("/api/studies/" + study + "/effects"));
    fits("/api/practice", "get", get("/api/practice?person=Dr%20Example"));
    fits("/api/practice/{round}/{number}/making", "post", post("/api/practice/3/1/making", "{}"));
    fits("/api/practice/{round}/making", "post", post("/api/practice/3/making", "{}"));
    fits("/api/practice/{round}/{number}", "get", get("/api/practice/3/1"));
    fits(
        "/api/practice/{round}/{number}/answers",
        "post",
        post("/api/practice/3/1/answers", "{\"grade\":\"doubtful\",\"blockedSweeps\":[1]}"));
    fits("/api/practice/{round}/study", "get", get("/api/practice/3/study?person=Dr%20Example"));
    fits("/api/pitfalls", "get", get("/api/pitfalls?person=Dr%20Example"));
    for (int number : new int[] {1, 2}) {
      fits(
          "/api/pitfalls/{number}/making",
          "post",
          post("/api/pitfalls/" + number + "/making", "{}"));
      fits("/api/pitfalls/{number}", "get", get("/api/pitfalls/" + number));
      fits(
          "/api/pitfalls/{number}/answers",
          "post",
          post("/api/pitfalls/" + number + "/answers", "{\"choice\":\"none\"}"));
    }
    String at = "/api/studies/" + study;
    post(at + "/notes", "{\"field\":\"healthy-volunteer\",\"text\":\"yes\"}");
    fits("/api/controls", "get", get("/api/controls"));
    fits("/api/limits/laboratory", "get", get("/api/limits/laboratory"));
    fits("/api/studies/{study}/limits", "get", get(at + "/limits"));
    fits(
        "/api/limits/choices",
        "post",
        post(
            "/api/limits/choices",
            "{\"muscle\":\"extensor digitorum\",\"needle\":\"concentric-small\",\"activation\":"
                + "\"voluntary\",\"set\":\"cn-japan-2012\",\"reason\":\"x\"}"));
    fits(
        "/api/studies/{study}/notes",
        "post",
        post(at + "/notes", "{\"field\":\"comment\",\"text\":\"x\"}"));
    fits("/api/studies/{study}/undo", "post", post(at + "/undo", "{}"));
    fits("/api/studies/{study}/redo", "post", post(at + "/redo", "{}"));
    fits(
        "/api/studies/{study}/declaration",
        "post",
        post(
            at + "/declaration",
            "{\"subjectCode\":\"A-1\",\"ageYears\":41,\"visit\":{\"date\":null,\"examiner\":null,"
                + "\"temperatureDegC\":33.5,\"medication\":null,\"note\":null},\"parts\":[]}"));
    fits(
        "/api/recordings",
        "post",
        RawRequest.own(running, "POST", "/api/recordings")
            .with("Content-Type", "application/octet-stream")
            .with("Lonefibre-File-Name", "x.edf")
            .body("nothing")
            .send());
  }

  @Test
  void cancelledWorkLeavesNothingBehind() throws Exception {
    String job = MAPPER.readTree(post("/api/demo", "{}").body()).path("id").asText();
    fits("/api/jobs/{job}/cancel", "post", post("/api/jobs/" + job + "/cancel", "{}"));
    RawRequest.Answer events =
        RawRequest.own(running, "GET", "/api/jobs/" + job + "/events")
            .with("Accept", "text/event-stream")
            .send();
    assertThat(events.body()).contains("event: progress", "\"state\":\"cancelled\"");
    fits("/api/jobs/{job}", "get", get("/api/jobs/" + job));
    assertThat(get("/api/studies?search=DEMO").body()).isEqualTo("[]");
  }

  @Test
  void refusalsAreAsDescribed() throws IOException {
    for (RawRequest.Answer refused :
        List.of(
            get("/api/studies/none"),
            post("/api/studies/" + study + "/notes", "{\"field\":\"other\",\"text\":\"x\"}"),
            get("/api/studies/" + study + "/exports/report.pdf"),
            post("/api/studies/" + study + "/signatures", "{\"revision\":1,\"meaning\":\"x\"}"),
            post("/api/studies/" + study + "/imports", "{\"sources\":[]}"))) {
      assertThat(refused.status()).isBetween(400, 499);
      JsonNode body = MAPPER.readTree(refused.body());
      assertThat(body.path("error").asText()).isNotBlank();
      assertThat(body.size()).isEqualTo(1);
    }
  }
}
