package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.validation.ResultSeverityEnum;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.FloatBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.report.dicom.Orthanc;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.report.fhir.FhirValidator;
import org.lonefibre.report.fhir.FhirVersion;
import org.lonefibre.report.pdf.ArchiveValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;

/** The demo study in the workbench: seen from near and far, signed, and sent to the hospital. */
@Tag("endToEnd")
@SuppressWarnings("NullAway.Init")
class DemoStudyTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final int COARSE = 40;
  private static final int FINE = 4000;

  @TempDir static @Nullable Path temporary;

  private static Path folder;
  private static @Nullable Orthanc archive;
  private static RunningWorkbench running;
  private static String study;

  @BeforeAll
  static void analyseOnce() throws IOException {
    folder = Objects.requireNonNull(temporary);
    if (Orthanc.absence().isEmpty()) {
      archive = Orthanc.start(Files.createDirectories(folder.resolve("archive")));
    }
    running =
        RunningWorkbench.in(
            folder.resolve("data"),
            archive == null ? null : new Pacs(archive.dicomWeb(), Duration.ofSeconds(60)));
    String job = post("/api/demo", "{}").path("id").asText();
    RawRequest.own(running, "GET", "/api/jobs/" + job + "/events")
        .with("Accept", "text/event-stream")
        .send();
    study = get("/api/studies").get(0).path("id").asText();
  }

  @AfterAll
  static void stop() throws IOException {
    running.close();
    if (archive != null) {
      archive.close();
    }
  }

  private static JsonNode get(String path) throws IOException {
    return MAPPER.readTree(RawRequest.own(running, "GET", path).send().body());
  }

  private static JsonNode post(String path, String body) throws IOException {
    RawRequest.Answer answer = RawRequest.own(running, "POST", path).body(body).send();
    assertThat(answer.status()).as(answer.body()).isBetween(200, 299);
    return MAPPER.readTree(answer.body());
  }

  private static byte[] bytes(String path) throws IOException, InterruptedException {
    HttpResponse<byte[]> answer =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(
                        URI.create("http://127.0.0.1:" + running.workbench().port() + path))
                    .header("Authorization", "Bearer " + running.token())
                    .header("Sec-Fetch-Site", "same-origin")
                    .build(),
                HttpResponse.BodyHandlers.ofByteArray());
    assertThat(answer.statusCode()).as(path).isEqualTo(200);
    return answer.body();
  }

  private static byte[] export(String file) throws IOException, InterruptedException {
    return bytes("/api/studies/" + study + "/exports/" + file);
  }

  @Test
  void theSameSignedStudyLeavesAsPdfFhirAndDicomAndEachOutsideToolTakesIt() throws Exception {
    post(
        "/api/studies/" + study + "/notes",
        "{\"field\":\"conclusion\",\"text\":\"Invented: five of twenty above the limit.\"}");
    ObjectNode signing = MAPPER.createObjectNode();
    signing.put("revision", get("/api/studies/" + study).path("study").path("revision").asLong());
    signing.put("meaning", "reviewed and approved");
    post("/api/studies/" + study + "/signatures", signing.toString());

    byte[] pdf = export("report.pdf");
    for (PDFAFlavour flavour : List.of(PDFAFlavour.PDFA_2_B, PDFAFlavour.PDFUA_1)) {
      assertThat(ArchiveValidator.breaches(pdf, flavour)).as("veraPDF, " + flavour).isEmpty();
    }
    for (FhirVersion version : FhirVersion.values()) {
      String file = "report.fhir-" + version.name().toLowerCase(Locale.ROOT) + ".json";
      String bundle = new String(export(file), StandardCharsets.UTF_8);
      assertThat(new FhirValidator(version).messages(bundle, ResultSeverityEnum.ERROR))
          .as("HAPI validator, " + version)
          .isEmpty();
      assertThat(bundle)
          .as("the signed PDF in the " + version + " bundle")
          .contains(Base64.getEncoder().encodeToString(pdf))
          .contains("\"final\"", "Dr Example");
    }
    byte[] dicom = export("report.dcm");
    dcmtkTakes(dicom, pdf);
    orthancTakes(dicom, pdf);
  }

  private static void dcmtkTakes(byte[] dicom, byte[] pdf) throws Exception {
    if (!Files.isExecutable(Path.of("/usr/bin/dcm2pdf"))) {
      System.out.println("DemoStudyTest: dcmtk is not installed: it does not read the DICOM file");
      return;
    }
    Path file = Files.write(folder.resolve("report.dcm"), dicom);
    assertThat(run("/usr/bin/dcmdump", file.toString()))
        .contains("EncapsulatedPDFStorage")
        .doesNotContain("W:", "E:");
    assertThat(run("/usr/bin/dcmftest", file.toString())).startsWith("yes:");
    Path back = folder.resolve("back.pdf");
    assertThat(run("/usr/bin/dcm2pdf", file.toString(), back.toString())).isEmpty();
    assertThat(Files.readAllBytes(back)).isEqualTo(pdf);
  }

  /** What was shown is sent, stands in the record of changes, and comes back as it left. */
  private static void orthancTakes(byte[] dicom, byte[] pdf) throws Exception {
    if (archive == null) {
      System.out.println("DemoStudyTest: " + Orthanc.absence().orElse("") + ": not sent");
      return;
    }
    String path = "/api/studies/" + study;
    JsonNode seen = post(path + "/leaving", "{\"accessionNumber\":\"\"}");
    assertThat(seen.path("lines").toString())
        .contains(
            archive.dicomWeb().toString(), "this computer", "signed, version 1", "Dr Example");
    RawRequest.Answer other =
        RawRequest.own(running, "POST", path + "/sendings")
            .body("{\"accessionNumber\":\"A1\",\"instanceUid\":\"" + uid(seen) + "\"}")
            .send();
    assertThat(other.status()).as("not what was shown").isEqualTo(409);
    for (int time = 0; time < 2; time++) {
      post(path + "/sendings", "{\"accessionNumber\":\"\",\"instanceUid\":\"" + uid(seen) + "\"}");
    }
    JsonNode instances = MAPPER.readTree(archive.get("/instances"));
    assertThat(instances).as("sent twice, kept once").hasSize(1);
    String kept = "/instances/" + instances.get(0).asText();
    assertThat(archive.get(kept + "/file")).isEqualTo(dicom);
    assertThat(archive.get(kept + "/pdf")).isEqualTo(pdf);
    assertThat(get("/api/changes?study=" + study).toString())
        .contains("report sent", "DICOM " + uid(seen) + " to " + archive.dicomWeb());
    assertThat(get(path).path("study").path("state").asText()).isEqualTo("signed");
  }

  /** Whatever leaves says that it is invented, whoever reads it and with what. */
  @Test
  void eachExportOfInventedDataSaysDemo() throws Exception {
    for (String file :
        List.of(
            "report.html",
            "analysis.json",
            "signals.csv",
            "intervals.csv",
            "report.fhir-r4.json",
            "report.fhir-r5.json",
            "report.dcm")) {
      assertThat(new String(export(file), StandardCharsets.ISO_8859_1)).as(file).contains("DEMO");
    }
    try (PDDocument pdf = Loader.loadPDF(export("report.pdf"))) {
      for (int page = 1; page <= pdf.getNumberOfPages(); page++) {
        PDFTextStripper text = new PDFTextStripper();
        text.setStartPage(page);
        text.setEndPage(page);
        assertThat(text.getText(pdf)).as("page " + page).contains("DEMO");
      }
    }
    int position = get("/api/studies/" + study).path("files").get(0).path("position").asInt();
    byte[] copy =
        bytes(
            "/api/studies/"
                + study
                + "/recordings/"
                + position
                + "/anonymous/file?shiftDays=-1500");
    assertThat(new String(copy, 0, 256, StandardCharsets.US_ASCII)).contains("X X X DEMO ");
  }

  private static String uid(JsonNode seen) {
    return seen.path("instanceUid").asText();
  }

  private static String run(String... command) throws IOException, InterruptedException {
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(String.join(" ", command) + ": " + said).isZero();
    return said;
  }

  private static FloatBuffer strip(String site, double startS, double endS, int columns)
      throws Exception {
    byte[] bytes =
        bytes(
            String.format(
                Locale.ROOT, "%s/strip?startS=%s&endS=%s&columns=%d", site, startS, endS, columns));
    assertThat(bytes).hasSize(8 * columns);
    return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asFloatBuffer();
  }

  /** However far the strip is zoomed out, each column reaches as high and low as its samples. */
  @Test
  void noDecimationHidesASpike() throws Exception {
    String site = "/api/studies/" + study + "/parts/0/sites/0";
    JsonNode about = get(site).path("site");
    double startS = about.path("startS").asDouble();
    double endS = about.path("endS").asDouble();
    FloatBuffer coarse = strip(site, startS, endS, COARSE);
    double stepS = (endS - startS) / COARSE;
    float largest = 0;
    for (int column = 0; column < COARSE; column++) {
      // About three samples a column: these are read one by one, not from the pyramid.
      FloatBuffer fine = strip(site, startS + column * stepS, startS + (column + 1) * stepS, FINE);
      for (int i = 0; i < FINE; i++) {
        assertThat(coarse.get(2 * column)).isLessThanOrEqualTo(fine.get(2 * i));
        assertThat(coarse.get(2 * column + 1)).isGreaterThanOrEqualTo(fine.get(2 * i + 1));
        largest = Math.max(largest, fine.get(2 * i + 1));
      }
    }
    float most = 0;
    for (int column = 0; column < COARSE; column++) {
      most = Math.max(most, coarse.get(2 * column + 1));
    }
    assertThat(most).as("the largest spike, neither more nor less").isEqualTo(largest);
  }
}
