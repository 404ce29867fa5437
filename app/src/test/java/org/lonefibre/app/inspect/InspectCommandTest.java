package org.lonefibre.app.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.StringReader;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.app.CommandRun;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.xml.sax.InputSource;

class InspectCommandTest {

  private static final Path SCHEMA =
      Path.of("..", "docs", "schema", "lonefibre-inspection-1.schema.json");

  @TempDir Path folder;

  /** Two signals with a gap of 2 s; the first label is markup. */
  private Path text() throws IOException {
    StringBuilder rows = new StringBuilder("time (s),<svg onload=x> (uV),B\n");
    for (double start : new double[] {0, 2.5}) {
      for (int k = 0; k < 10_000; k++) {
        rows.append(
            String.format(Locale.ROOT, "%.5f,%d,%d%n", start + k / 20_000.0, k % 91 - 45, k % 7));
      }
    }
    return Files.writeString(folder.resolve("a&b.csv"), rows);
  }

  private Path page() throws IOException {
    return Files.writeString(folder.resolve("page.edf"), "<!doctype html><html></html>");
  }

  @Test
  void whatWasReadIsSaidInWords() throws IOException {
    CommandRun run = CommandRun.of("inspect", text());
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("a&b.csv: text, start not told, 3.000 s, 2 signals")
        .contains("signal 1 \"<svg onload=x> (uV)\": 20000 Hz, unit \"uV\", 20000 samples, 1.000 s")
        .contains("samples from -45 to 45 uV")
        .contains("2 segments, divided by gaps: 0.500 s to 2.500 s")
        .contains("signal 2 \"B\": 20000 Hz, no unit (not calibrated)")
        .contains("one site: the whole recording")
        .contains("uncalibrated: ");
  }

  @Test
  void whatIsTrueOfAllSignalsIsSaidOnceAndALongListIsCut() throws IOException {
    StringBuilder rows = new StringBuilder();
    for (int k = 0; k < 100; k++) {
      rows.append(String.format(Locale.ROOT, "%.2f", k / 10.0));
      for (int c = 0; c < 40; c++) {
        rows.append(String.format(Locale.ROOT, ",%d.5", (c * 31 + k * k) % 97));
      }
      rows.append('\n');
    }
    Path file = Files.writeString(folder.resolve("table.csv"), rows);
    CommandRun run = CommandRun.of("inspect", file);
    assertThat(run.exitCode()).isZero();
    assertThat(run.output().lines().filter(line -> line.startsWith("  signal "))).hasSize(32);
    assertThat(run.output().split("sampling-too-slow", -1)).hasSize(2);
    assertThat(run.output())
        .contains("  and 8 more signals")
        .contains("  all signals:")
        .contains("if each row is an interval, read it with the command intervals")
        .contains("step and range of the converter not told");
  }

  @Test
  @Tag("contract")
  void theDocumentFollowsItsSchemaAndTheSchemaNamesWhatTheDocumentHas() throws IOException {
    CommandRun run = CommandRun.of("inspect", text(), page(), "--json", "-");
    assertThat(run.exitCode()).isEqualTo(3);
    var schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(Files.readString(SCHEMA));
    assertThat(schema.validate(run.output(), InputFormat.JSON)).isEmpty();
    JsonNode document = new ObjectMapper().readTree(run.output());
    assertThat(document.at("/files/0/channels/0/exactRate/samples").asInt()).isEqualTo(20_000);
    assertThat(document.at("/files/0/channels/0/gaps/0/endS").asDouble()).isEqualTo(2.5);
    assertThat(document.at("/files/0/channels/1/calibration").asText()).isEqualTo("none");
    assertThat(document.at("/files/0/channels/1/amplitude/step").isNull()).isTrue();
    assertThat(document.at("/refused/0/file").asText()).isEqualTo("page.edf");
    assertThat(document.at("/refused/0/reason").asText()).contains("an HTML page");
    assertThat(run.errors()).hasLineCount(1).contains("page.edf: byte 0");
  }

  @Test
  @Tag("contract")
  void everyNameOfTheDocumentStandsInTheSchema() throws IOException {
    JsonNode schema = new ObjectMapper().readTree(SCHEMA.toFile());
    Map<String, Class<? extends Record>> records =
        Map.ofEntries(
            Map.entry("", Inspection.class),
            Map.entry("/$defs/file", Inspection.File.class),
            Map.entry("/$defs/channel", Inspection.Channel.class),
            Map.entry("/$defs/exactRate", Inspection.ExactRate.class),
            Map.entry("/$defs/amplitude", Inspection.Amplitude.class),
            Map.entry("/$defs/stretch", Inspection.Stretch.class),
            Map.entry("/$defs/site", Inspection.Site.class),
            Map.entry("/$defs/annotation", Annotation.class),
            Map.entry("/$defs/finding", Finding.class),
            Map.entry("/$defs/evidence", Evidence.class),
            Map.entry("/$defs/quantity", Evidence.Quantity.class),
            Map.entry("/$defs/refusal", Refusal.class),
            Map.entry("/$defs/producer", Producer.class));
    records.forEach(
        (place, type) -> {
          String[] names =
              Arrays.stream(type.getRecordComponents())
                  .map(RecordComponent::getName)
                  .toArray(String[]::new);
          assertThat(schema.at(place + "/properties").fieldNames())
              .toIterable()
              .containsExactlyInAnyOrder(names);
        });
  }

  @Test
  void row27HostileTextIsEscapedInThePictureAndHarmlessInTheTerminal() throws Exception {
    Path out = folder.resolve("out");
    CommandRun run = CommandRun.of("inspect", text(), "--out", out);
    assertThat(run.exitCode()).isZero();
    String svg = Files.readString(out.resolve("a_b.csv.svg"));
    assertThat(svg).contains("&lt;svg").doesNotContain("<svg onload");
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
    assertThat(out.resolve("inspection.json")).exists();
    byte[] evil = "time,\u001b[2J\u0007x (uV)\n0,1\n1,2\n2,3\n".getBytes(StandardCharsets.UTF_8);
    Path file = Files.write(folder.resolve("e.csv"), evil);
    CommandRun second = CommandRun.of("inspect", file, "--out", out);
    assertThat(second.output() + second.errors()).doesNotContain("\u001b", "\u0007");
  }

  @Test
  void row16ChannelsOfDifferentRatesAreShownEachAtItsOwn() {
    Path file = Path.of("..", "..", "shared", "data", "edf", "mne-test_uneven_samp.edf");
    org.junit.jupiter.api.Assumptions.assumeTrue(
        Files.exists(file), "skipped: the folder ../shared is absent");
    CommandRun run = CommandRun.of("inspect", file);
    assertThat(run.exitCode()).isZero();
    assertThat(run.output().lines().filter(line -> line.startsWith("  signal ")))
        .map(line -> line.replaceAll(".*: ([0-9.]+) Hz.*", "$1"))
        .containsExactly("100", "12.8");
  }

  @Test
  void onlyRefusedFilesEndWithTwoAndOneLineEach() throws IOException {
    CommandRun run = CommandRun.of("inspect", page(), folder.resolve("not there.edf"));
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.output()).isEmpty();
    assertThat(run.errors()).hasLineCount(2).contains("an HTML page").contains("not there.edf");
  }

  @Test
  void twoFilesOfOneNameGetTwoPictures() throws IOException {
    Path other = Files.createDirectories(folder.resolve("other"));
    Path copy = Files.copy(text(), other.resolve("a&b.csv"));
    Path out = folder.resolve("out");
    assertThat(CommandRun.of("inspect", folder.resolve("a&b.csv"), copy, "--out", out).exitCode())
        .isZero();
    assertThat(out.resolve("a_b.csv.svg")).exists();
    assertThat(out.resolve("a_b.csv-2.svg")).exists();
  }
}
