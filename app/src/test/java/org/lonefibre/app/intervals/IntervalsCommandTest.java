package org.lonefibre.app.intervals;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

class IntervalsCommandTest {

  @TempDir Path folder;

  private Path list(boolean timed, boolean blocked) throws IOException {
    StringBuilder text = new StringBuilder();
    for (int k = 0; k < 61; k++) {
      String interval = blocked && k == 60 ? "-" : k % 2 == 0 ? "0.600" : "0.630";
      text.append(timed ? 0.1 * k + " " : "").append(interval).append('\n');
    }
    return Files.writeString(folder.resolve("pair.txt"), text);
  }

  @Test
  void theJitterOfAListIsTheMeanOfItsDifferencesAndWhatIsNotJudgedIsSaid() throws IOException {
    CommandRun run = CommandRun.of("intervals", list(false, false), "--unit", "ms");
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("61 discharges, 61 intervals, 60 differences")
        .contains("mean consecutive difference 30.0 us")
        .contains("the grade")
        .contains("no times")
        .contains("not judged: blocking");
  }

  @Test
  void blocksAndTimesAreUsedWhereTheyStandThere() throws IOException {
    CommandRun run = CommandRun.of("intervals", list(true, true), "--unit", "ms");
    assertThat(run.output())
        .contains("61 discharges, 60 intervals, 59 differences")
        .contains("blocking 1.6 %")
        .doesNotContain("no times");
  }

  @Test
  void aListThatCannotBeReadIsRefusedAlone() throws IOException {
    Path broken = Files.writeString(folder.resolve("broken.txt"), "600\nsix hundred\n");
    CommandRun run = CommandRun.of("intervals", list(true, true), broken, "--unit", "us");
    assertThat(run.exitCode()).isEqualTo(3);
    assertThat(run.errors()).hasLineCount(1).contains("broken.txt: line 2");
    assertThat(CommandRun.of("intervals", broken, "--unit", "us").exitCode()).isEqualTo(2);
    assertThat(CommandRun.of("intervals", broken).exitCode()).isEqualTo(2);
  }

  @Test
  @Tag("contract")
  void theDocumentFollowsItsSchema() throws IOException {
    Path broken = Files.writeString(folder.resolve("broken.txt"), "600\nsix hundred\n");
    CommandRun run =
        CommandRun.of("intervals", list(false, true), broken, "--unit", "ms", "--json", "-");
    assertThat(run.exitCode()).isEqualTo(3);
    var schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(
                Files.readString(
                    Path.of("..", "docs", "schema", "lonefibre-intervals-1.schema.json")));
    assertThat(schema.validate(run.output(), InputFormat.JSON)).isEmpty();
    JsonNode document = new ObjectMapper().readTree(run.output());
    assertThat(document.at("/lists/0/meanConsecutiveDifferenceUs").asDouble())
        .isCloseTo(30, within(1e-9));
    assertThat(document.at("/lists/0/meanSortedDifferenceUs").isNull()).isTrue();
    assertThat(document.at("/lists/0/notJudged").toString())
        .isEqualTo("[\"grade\",\"timing-floor\",\"times\"]");
    assertThat(document.at("/refused/0/place").asText()).isEqualTo("line 2");
    assertThat(CommandRun.of("intervals", broken, "--unit", "us", "--json", "x.json").exitCode())
        .isEqualTo(2);
  }
}
