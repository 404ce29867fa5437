package org.lonefibre.report;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The shapes a report can take. */
public enum ReportFormat {
  /** {@code analysis.json}: everything, for programs. */
  JSON("application/json", "analysis.json"),
  /** {@code report.html}: one file for any browser. */
  HTML("text/html; charset=utf-8", "report.html"),
  /** {@code report.pdf}: for print and archive. */
  PDF("application/pdf", "report.pdf"),
  /** {@code signals.csv} and {@code intervals.csv}: for spreadsheets and statistics. */
  CSV("text/csv; charset=utf-8", "signals.csv", "intervals.csv"),
  /** {@code report.fhir-r4.json} and {@code report.fhir-r5.json}: for the hospital's record. */
  FHIR("application/fhir+json", "report.fhir-r4.json", "report.fhir-r5.json"),
  /** {@code report.dcm}: the PDF for the hospital's archive of images. */
  DICOM("application/dicom", "report.dcm");

  /** What is written when nothing is named. */
  public static final Set<ReportFormat> USUAL =
      Collections.unmodifiableSet(EnumSet.of(JSON, HTML, PDF, CSV));

  private final String mediaType;
  private final List<String> files;

  ReportFormat(String mediaType, String... files) {
    this.mediaType = mediaType;
    this.files = List.of(files);
  }

  /** Media type of its files. */
  public String mediaType() {
    return mediaType;
  }

  /** Names of its files. */
  public List<String> files() {
    return files;
  }

  /** The format that has a file of this name. */
  public static Optional<ReportFormat> findByFile(String name) {
    return Arrays.stream(values()).filter(format -> format.files.contains(name)).findFirst();
  }
}
