package org.lonefibre.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ExaminationSample;

/** The document against its published schema, and back. */
@Tag("contract")
class AnalysisJsonTest {

  private static final ObjectMapper JSON = new ObjectMapper();

  private static Stream<Examination> samples() {
    return Stream.of(
        ExaminationSample.voluntary(),
        ExaminationSample.stimulated(),
        ExaminationSample.nothingMeasured(),
        ExaminationSample.refusedOnly(),
        ExaminationSample.hostile());
  }

  @ParameterizedTest
  @MethodSource("samples")
  void whatIsWrittenFitsTheSchemaAndReadsBackEqual(Examination examination) throws IOException {
    byte[] bytes = written(examination);
    assertThat(schema().validate(JSON.readTree(bytes))).isEmpty();
    Examination back = AnalysisJson.read("analysis.json", bytes);
    assertThat(written(back)).isEqualTo(bytes);
  }

  @Test
  void theSchemaWouldSeeAMissingPropertyAndAWrongWord() throws IOException {
    JsonNode missing = JSON.readTree(written(ExaminationSample.voluntary()));
    ((ObjectNode) pair(missing, 0)).remove("jitterUs");
    assertThat(schema().validate(missing)).isNotEmpty();
    JsonNode wrong = JSON.readTree(written(ExaminationSample.voluntary()));
    ((ObjectNode) pair(wrong, 0)).put("status", "fine");
    assertThat(schema().validate(wrong)).isNotEmpty();
  }

  @Test
  void whatCannotBeMeasuredIsNullWithAFindingThatSaysWhy() throws IOException {
    JsonNode pair = pair(JSON.readTree(written(ExaminationSample.voluntary())), 17);
    assertThat(pair.get("status").asText()).isEqualTo("unmeasurable");
    for (String name :
        new String[] {"jitterUs", "correctedJitterUs", "meanIntervalUs", "jitterStatistic"}) {
      assertThat(pair.has(name)).isTrue();
      assertThat(pair.get(name).isNull()).as(name).isTrue();
    }
    assertThat(pair.get("findings").get(0).get("code").asText()).isEqualTo("too-few-differences");
  }

  private static JsonNode pair(JsonNode document, int recording) {
    return document.at("/studies/0/recordings/" + recording + "/motorUnits/0/pairs/0");
  }

  private static byte[] written(Examination examination) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    AnalysisJson.write(examination, out);
    return out.toByteArray();
  }

  private static Schema schema() throws IOException {
    String text = Files.readString(Path.of("../docs/schema/lonefibre-analysis-1.schema.json"));
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(text);
  }
}
