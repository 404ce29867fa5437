package org.lonefibre.report;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.csv.IntervalsCsv;
import org.lonefibre.report.csv.SignalsCsv;
import org.lonefibre.report.dicom.EncapsulatedPdf;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Language;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.fhir.FhirBundle;
import org.lonefibre.report.fhir.FhirVersion;
import org.lonefibre.report.html.HtmlReport;
import org.lonefibre.report.pdf.PdfReport;

/**
 * Writes an examination as files: {@code analysis.json}, {@code report.html}, {@code report.pdf},
 * {@code signals.csv}, {@code intervals.csv}, FHIR bundles, {@code report.dcm}.
 *
 * <p>Safe for use by several threads, as long as they write to different directories.
 */
public final class ReportWriter {

  /**
   * Writes the files of some formats into a directory, which is made if it does not exist. Each
   * file appears whole or not at all; one that exists is replaced.
   *
   * @throws IllegalArgumentException if the examination holds a number that is not finite; nothing
   *     is written then
   * @throws IOException if a file cannot be written
   */
  public void write(Examination examination, Path directory, Set<ReportFormat> formats)
      throws IOException {
    write(examination, Closing.NONE, Language.ENGLISH, directory, formats);
  }

  /**
   * The same with what people added to the result, the pages in a language. Tables, JSON and FHIR
   * stay English: programs read them.
   */
  public void write(
      Examination examination,
      Closing closing,
      Language language,
      Path directory,
      Set<ReportFormat> formats)
      throws IOException {
    WholeFiles.write(directory, contents(examination, closing, language, formats));
  }

  /** The files by name, without writing them. */
  public Map<String, byte[]> contents(
      Examination examination, Closing closing, Language language, Set<ReportFormat> formats)
      throws IOException {
    Map<String, byte[]> contents = new LinkedHashMap<>();
    if (formats.contains(ReportFormat.JSON)) {
      ByteArrayOutputStream json = new ByteArrayOutputStream(1 << 20);
      AnalysisJson.write(examination, json);
      contents.put("analysis.json", json.toByteArray());
    }
    if (formats.contains(ReportFormat.CSV)) {
      contents.put("signals.csv", utf8(SignalsCsv.of(examination)));
      contents.put("intervals.csv", utf8(IntervalsCsv.of(examination)));
    }
    if (formats.contains(ReportFormat.HTML)) {
      contents.put("report.html", utf8(html(examination, closing, language)));
    }
    boolean dicom = formats.contains(ReportFormat.DICOM);
    boolean fhir = formats.contains(ReportFormat.FHIR);
    if (formats.contains(ReportFormat.PDF) || fhir || dicom) {
      byte[] pdf = new PdfReport().render(html(examination, closing, language));
      if (formats.contains(ReportFormat.PDF)) {
        contents.put("report.pdf", pdf);
      }
      if (fhir) {
        contents.put(
            "report.fhir-r4.json", utf8(FhirBundle.of(FhirVersion.R4, examination, closing, pdf)));
        contents.put(
            "report.fhir-r5.json", utf8(FhirBundle.of(FhirVersion.R5, examination, closing, pdf)));
      }
      if (dicom) {
        contents.put("report.dcm", EncapsulatedPdf.of(examination, closing, pdf).file());
      }
    }
    return contents;
  }

  private static String html(Examination examination, Closing closing, Language language) {
    return new HtmlReport().render(ReportDocument.of(examination, closing, language));
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
