package org.lonefibre.report.dicom;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Language;

class EncapsulatedPdfTest {

  private static final byte[] PDF = "%PDF-1.7 invented, odd ".getBytes(StandardCharsets.US_ASCII);
  private static final Closing SIGNED =
      new Closing(
          "Invented study",
          Closing.State.SIGNED,
          null,
          "Seen twice.",
          "Invented conclusion.",
          new Closing.Seal(
              1, false, "R. Example", "2026-03-15T08:00:00Z", "approved", "ab".repeat(32), "AAAA"));

  @TempDir private Path folder;

  @Tag("crossCheck")
  @Test
  void anOutsideToolReadsTheFileAndFindsThePdfUnchanged() throws IOException, InterruptedException {
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/dcm2pdf")), "dcmtk is not installed");
    byte[] pdf = Objects.requireNonNull(report().get("report.pdf"));
    Path file = folder.resolve("report.dcm");
    Files.write(file, Objects.requireNonNull(report().get("report.dcm")));
    String dump = run("/usr/bin/dcmdump", "+W", folder.toString(), file.toString());
    assertThat(dump)
        .contains("EncapsulatedPDFStorage", "LittleEndianExplicit", "DEMO-0042", "047Y")
        .doesNotContain("W:", "E:");
    assertThat(run("/usr/bin/dcmftest", file.toString())).startsWith("yes:");
    Path back = folder.resolve("back.pdf");
    assertThat(run("/usr/bin/dcm2pdf", file.toString(), back.toString())).isEmpty();
    assertThat(Files.readAllBytes(back)).isEqualTo(pdf);
  }

  @Tag("crossCheck")
  @Test
  void hostileTextStaysTextForAnOutsideTool() throws IOException, InterruptedException {
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/dcmdump")), "dcmtk is not installed");
    Path file = folder.resolve("hostile.dcm");
    Files.write(
        file,
        EncapsulatedPdf.of(
                ExaminationSample.hostile(),
                new Closing("t", Closing.State.OPEN, null, null, null, null),
                PDF)
            .file());
    String dump = run("/usr/bin/dcmdump", file.toString());
    assertThat(dump).contains("EncapsulatedPDFStorage").doesNotContain("W:", "E:");
    Path back = folder.resolve("back.pdf");
    run("/usr/bin/dcm2pdf", file.toString(), back.toString());
    assertThat(Files.readAllBytes(back)).isEqualTo(PDF);
  }

  @Tag("endToEnd")
  @Test
  void aRealArchiveTakesTheReportOnceAndGivesBackIdenticalBytes()
      throws IOException, InterruptedException {
    assumeTrue(Orthanc.absence().isEmpty(), Orthanc.absence().orElse(""));
    Examination examination = ExaminationSample.voluntary();
    byte[] pdf = Objects.requireNonNull(report().get("report.pdf"));
    EncapsulatedPdf first = EncapsulatedPdf.of(examination, SIGNED, pdf);
    try (Orthanc archive = Orthanc.start(folder)) {
      Pacs pacs = new Pacs(archive.dicomWeb(), Duration.ofSeconds(30));
      pacs.store(first);
      pacs.store(first);
      pacs.store(
          EncapsulatedPdf.of(
              examination, SIGNED, Objects.requireNonNull(report().get("report.pdf"))));
      JsonNode instances = new JsonMapper().readTree(archive.get("/instances"));
      assertThat(instances).as("sent three times, kept once").hasSize(1);
      String path = "/instances/" + instances.get(0).asText();
      assertThat(archive.get(path + "/file")).isEqualTo(first.file());
      assertThat(archive.get(path + "/pdf")).isEqualTo(pdf);

      pacs.store(EncapsulatedPdf.of(examination, Closing.NONE, pdf));
      assertThat(new JsonMapper().readTree(archive.get("/instances"))).hasSize(2);
      assertThat(new JsonMapper().readTree(archive.get("/studies")))
          .as("another report of the same examination")
          .hasSize(1);
    }
  }

  @Tag("endToEnd")
  @Test
  void anArchiveThatAsksWhoSendsTakesTheReportWithTheLoginAndRefusesItWithout() throws IOException {
    assumeTrue(Orthanc.absence().isEmpty(), Orthanc.absence().orElse(""));
    EncapsulatedPdf report = EncapsulatedPdf.of(ExaminationSample.voluntary(), SIGNED, PDF, "A-1");
    try (Orthanc archive = Orthanc.guarded(folder, "jitter", "p:ss wörd")) {
      Duration wait = Duration.ofSeconds(30);
      assertThatThrownBy(() -> new Pacs(archive.dicomWeb(), wait).store(report))
          .hasMessageContaining("refused with code 401");
      assertThatThrownBy(
              () ->
                  new Pacs(archive.dicomWeb(), wait, PacsLogin.of("basic jitter:wrong"))
                      .store(report))
          .hasMessageContaining("refused with code 401")
          .hasMessageNotContaining("wrong");
      new Pacs(archive.dicomWeb(), wait, PacsLogin.of("basic jitter:p:ss wörd\n")).store(report);
    }
  }

  @Tag("crossCheck")
  @Test
  void theNumberOfTheOrderIsReadByAnOutsideToolAndMakesAnotherInstance()
      throws IOException, InterruptedException {
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/dcmdump")), "dcmtk is not installed");
    Examination examination = ExaminationSample.voluntary();
    EncapsulatedPdf report = EncapsulatedPdf.of(examination, SIGNED, PDF, "2026-000417");
    Path file = Files.write(folder.resolve("ordered.dcm"), report.file());
    assertThat(run("/usr/bin/dcmdump", "+P", "AccessionNumber", file.toString()))
        .contains("[2026-000417]");
    assertThat(report.instanceUid())
        .isNotEqualTo(EncapsulatedPdf.of(examination, SIGNED, PDF).instanceUid());
    for (String wrong : List.of("12345678901234567", "A\\B", "A\nB", " A")) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> EncapsulatedPdf.of(examination, SIGNED, PDF, wrong))
          .withMessageContaining("at most 16 characters");
    }
  }

  @Test
  void theSameReportIsTheSameInstanceAndAnyOtherIsAnotherOne() throws IOException {
    Examination examination = ExaminationSample.voluntary();
    EncapsulatedPdf one = EncapsulatedPdf.of(examination, SIGNED, PDF);
    assertThat(EncapsulatedPdf.of(examination, SIGNED, PDF).file()).isEqualTo(one.file());
    assertThat(
            List.of(
                EncapsulatedPdf.of(examination, Closing.NONE, PDF).instanceUid(),
                EncapsulatedPdf.of(examination, SIGNED, new byte[] {1}).instanceUid(),
                EncapsulatedPdf.of(ExaminationSample.stimulated(), SIGNED, PDF).instanceUid()))
        .doesNotHaveDuplicates()
        .doesNotContain(one.instanceUid());
    assertThat(one.instanceUid()).matches("2\\.25\\.[1-9][0-9]*").hasSizeLessThanOrEqualTo(64);
    assertThat(report().get("report.dcm")).isEqualTo(report().get("report.dcm"));
  }

  private static java.util.Map<String, byte[]> report() throws IOException {
    return new ReportWriter()
        .contents(
            ExaminationSample.voluntary(),
            SIGNED,
            Language.ENGLISH,
            EnumSet.of(ReportFormat.PDF, ReportFormat.DICOM));
  }

  private static String run(String... command) throws IOException, InterruptedException {
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(String.join(" ", command) + ": " + said).isZero();
    return said;
  }
}
