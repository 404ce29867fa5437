package org.lonefibre.report;

/** The shapes a report can take. */
public enum ReportFormat {
  /** {@code analysis.json}: everything, for programs. */
  JSON,
  /** {@code report.html}: one file for any browser. */
  HTML,
  /** {@code report.pdf}: for print and archive. */
  PDF,
  /** {@code signals.csv} and {@code intervals.csv}: for spreadsheets and statistics. */
  CSV
}
