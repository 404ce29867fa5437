package org.lonefibre.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

class EarlierDocumentsTest {

  private final JsonMapper mapper = new JsonMapper();

  @Test
  void whatSummariesDidNotHaveIsAbsentOrEmptyAndTheRestStays() throws IOException {
    JsonNode read = completed("{\"studies\":[{\"muscle\":\"m\",\"summary\":{\"pairs\":3}}]}");
    JsonNode summary = read.path("studies").path(0).path("summary");
    assertThat(read.path("chain").isNull()).isTrue();
    assertThat(summary.path("progress").isNull()).isTrue();
    assertThat(summary.path("alternatives").isArray()).isTrue();
    assertThat(summary.path("alternatives")).isEmpty();
    assertThat(summary.path("pairs").asInt()).isEqualTo(3);
    assertThat(read.path("studies").path(0).path("muscle").asText()).isEqualTo("m");
  }

  @Test
  void documentsOfTodayAndDocumentsWithoutStudiesAreNotTouched() throws IOException {
    for (String document :
        new String[] {
          "{ \"studies\": [ {\"summary\": {\"alternatives\": [ 1 ]}} ], \"chain\": null }",
          "{ \"other\" : 1 }"
        }) {
      byte[] bytes = document.getBytes(StandardCharsets.UTF_8);
      assertThat(EarlierDocuments.completed(bytes, mapper)).isEqualTo(bytes);
    }
  }

  private JsonNode completed(String document) throws IOException {
    return mapper.readTree(
        EarlierDocuments.completed(document.getBytes(StandardCharsets.UTF_8), mapper));
  }
}
