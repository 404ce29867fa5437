package org.lonefibre.app.needle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.app.terminal.FaultLine;
import picocli.CommandLine;

@Tag("contract")
class NeedleCommandTest {

  private static final Path SCHEMA =
      Path.of("..", "docs", "schema", "lonefibre-needle-1.schema.json");

  private record Ran(int exitCode, String out, String err) {}

  private static Ran run(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line = new CommandLine(new NeedleCommand());
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    line.setExecutionExceptionHandler(
        (failure, command, parsed) -> {
          FaultLine fault = FaultLine.of(failure);
          command.getErr().println(fault.text());
          return fault.exitCode().number();
        });
    return new Ran(line.execute(arguments), out.toString(), err.toString());
  }

  @Test
  void theDocumentIsWhatItsSchemaSays(@TempDir Path folder) throws IOException {
    Path out = folder.resolve("out");
    Ran ran =
        run(
            "--needle",
            "monopolar",
            "--compare",
            "single-fibre",
            "--distances-mm",
            "0.02,0.1,0.3",
            "--high-pass-hz",
            "700",
            "--contact-ohm-m2",
            "1e-4",
            "--spike-high-passes-hz",
            "0,2000",
            "--reach-uv",
            "300,20",
            "--cache",
            folder.resolve("cache").toString(),
            "--out",
            out.toString());
    assertThat(ran.err()).isEmpty();
    assertThat(ran.exitCode()).isZero();
    assertThat(ran.out()).contains("monopolar", "single-fibre", "uncertain by perhaps half");
    String json = Files.readString(out.resolve("needle.json"));
    assertThat(
            SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(Files.readString(SCHEMA))
                .validate(json, InputFormat.JSON))
        .isEmpty();

    JsonNode document = new ObjectMapper().readTree(json);
    assertThat(document.get("leadField")).hasSize(3);
    assertThat(document.get("potentials")).as("0.02 mm lies within the fibre").hasSize(2 * 4);
    assertThat(document.get("contributions")).hasSize(2);
    assertThat(document.get("compared").get("needle").asText()).isEqualTo("single-fibre");
    for (JsonNode part : document.get("contributions")) {
      double product = 1;
      for (String factor :
          List.of(
              "point",
              "averaging",
              "insulation",
              "metal",
              "cannula",
              "contact",
              "cable",
              "filter")) {
        product *= part.get(factor).asDouble();
      }
      double total = part.get("total").asDouble();
      assertThat(product).isCloseTo(total, within(1e-9 * total));
      assertThat(part.get("cannula").asDouble()).isEqualTo(1);
    }
    assertThat(document.get("spectra")).hasSize(2);
    assertThat(document.get("radial")).hasSize(2);
    assertThat(document.get("shouldering").get("cells")).hasSize(8 * 17);
    assertThat(document.get("claims")).hasSize(6);
    JsonNode reach = document.get("reach");
    assertThat(reach).as("three sizes, two amplitudes").hasSize(6);
    for (int i = 0; i < reach.size(); i += 2) {
      assertThat(reach.get(i).get("distanceMm").asDouble())
          .as("300 uV before 20 uV")
          .isLessThan(reach.get(i + 1).get("distanceMm").asDouble());
      if (i > 0) {
        assertThat(reach.get(i + 1).get("distanceMm").asDouble())
            .as("a thicker fibre is heard farther")
            .isGreaterThan(reach.get(i - 1).get("distanceMm").asDouble());
      }
    }
    assertThat(document.get("muscle").get("byHighPass").findValuesAsText("highPassHz"))
        .containsExactly("0.0", "2000.0");
    double shares = 0;
    for (JsonNode share : document.get("fibresPerPotential")) {
      shares += share.get("share").asDouble();
    }
    assertThat(shares).isCloseTo(1, within(1e-9));

    assertThat(Files.readString(out.resolve("needle.html")))
        .contains(
            "<svg",
            "Where the numbers come from",
            "What the trade holds, and what the model says",
            "Gath and Stålberg");
    for (String figure :
        List.of(
            "lead",
            "fall-off",
            "potentials",
            "fall-off-relative",
            "radial",
            "spectrum-monopolar",
            "spectrum-single-fibre",
            "shouldering-monopolar",
            "shouldering-single-fibre",
            "shouldering-examples-monopolar",
            "shouldering-examples-single-fibre",
            "background",
            "high-pass-cost",
            "timing-error",
            "contributions-monopolar",
            "contributions-single-fibre")) {
      assertThat(out.resolve(figure + ".svg")).isNotEmptyFile();
      BufferedImage image = ImageIO.read(out.resolve(figure + ".png").toFile());
      assertThat(image.getWidth()).isEqualTo(1920);
      assertThat(inked(image)).as("ink on " + figure).isBetween(0.005, 0.5);
    }
  }

  /**
   * The statements are common practice without a source; values are those of physics here, where
   * the large surface lets no more of a far fibre in, but less of a near one.
   */
  @Test
  void whatTheTradeHoldsStandsBesideWhatIsComputed(@TempDir Path folder) throws IOException {
    Path out = folder.resolve("out");
    run(
        "--needle",
        "concentric-small",
        "--compare",
        "single-fibre",
        "--distances-mm",
        "0.1",
        "--cache",
        folder.resolve("cache").toString(),
        "--out",
        out.toString());
    JsonNode claims =
        new ObjectMapper().readTree(out.resolve("needle.json").toFile()).get("claims");
    double[][] expected = {
      {1.55, 1.70}, {0.83, 0.30}, {18.8, 12.9}, {20.6, 6.96}, {91, 84}, {5.4, 1.4}
    };
    String[] verdicts = {"agrees", "agrees", "agrees", "agrees in part", "agrees", "agrees"};
    Pattern[] number = {
      Pattern.compile("× ([0-9.]+)"),
      Pattern.compile("cannula × ([0-9.]+)"),
      Pattern.compile("([0-9.]+) : 1"),
      Pattern.compile("([0-9.]+) µV,"),
      Pattern.compile("leaves ([0-9.]+) %"),
      Pattern.compile("([0-9.]+) µV rms"),
    };
    for (int i = 0; i < expected.length; i++) {
      String[] found = {
        claims.get(i).get("smallSurface").asText(), claims.get(i).get("largeSurface").asText()
      };
      for (int side = 0; side < 2; side++) {
        Matcher matcher = number[i].matcher(found[side]);
        assertThat(matcher.find()).as(found[side]).isTrue();
        assertThat(Double.parseDouble(matcher.group(1)))
            .as(found[side])
            .isCloseTo(expected[i][side], within(0.03 * expected[i][side] + 0.05));
      }
      assertThat(claims.get(i).get("verdict").asText()).isEqualTo(verdicts[i]);
    }
  }

  private static double inked(BufferedImage image) {
    int inked = 0;
    for (int x = 0; x < image.getWidth(); x++) {
      for (int y = 0; y < image.getHeight(); y++) {
        inked += (image.getRGB(x, y) & 0xff) < 128 ? 1 : 0;
      }
    }
    return inked / (double) (image.getWidth() * image.getHeight());
  }

  @Test
  void aCapacitiveContactGivesAPhase(@TempDir Path folder) throws IOException {
    Path out = folder.resolve("out");
    Ran ran =
        run(
            "--needle",
            "monopolar",
            "--contact-capacitance-f-per-m2",
            "0.2",
            "--distances-mm",
            "0.3",
            "--cache",
            folder.toString(),
            "--out",
            out.toString());
    assertThat(ran.err()).isEmpty();
    JsonNode document = new ObjectMapper().readTree(out.resolve("needle.json").toFile());
    // At 1 kHz 0.2 F/m2 on 0.27 mm2 is 3 kOhm in series with the 3.9 kOhm of the tissue.
    assertThat(document.get("coreToReferenceOhm").asDouble()).isBetween(4500.0, 5500.0);
    assertThat(document.get("contact").get("capacitanceFPerM2").asDouble()).isEqualTo(0.2);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--needle singel-fibre | perhaps single-fibre is meant",
        "--fibre-um 0.055 | --fibre-um: expected 10 to 150 um, found 0.055",
        "--distances-mm 0 | --distances-mm: expected 0.005 to 20 mm, found 0",
        "--angle-deg NaN | --angle-deg: expected -360 to 360 degrees",
        "--across-s-per-m -1 | --across-s-per-m: expected 0.001 to 10 S/m, found -1",
        "--along-s-per-m 9 | at most 30 times",
        "--contact-ohm-m2 800 | expected 0 to 10 ohm m2, found 800",
        "--contact-ohm-m2 1 --contact-capacitance-f-per-m2 1 | expected one of them, found both",
        "--high-pass-hz 99999 | expected 0 to 5000 Hz",
        "--reach-uv 0.2 | --reach-uv: expected 1 to 10000 uV, found 0.2",
        "--spike-high-passes-hz 500,90000 | --spike-high-passes-hz: expected 0 to 5000 Hz",
        "--json x | use --out DIR"
      })
  void aFaultIsOneLineThatSaysWhatToDo(String options, String expected) {
    Ran ran = run(options.split(" "));
    assertThat(ran.exitCode()).isEqualTo(2);
    assertThat(ran.err().strip()).contains(expected).doesNotContain("\n");
    assertThat(ran.out()).isEmpty();
  }
}
