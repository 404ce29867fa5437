package org.lonefibre.report.html;

import java.util.List;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.document.ReportDocument.Provenance;

/**
 * What the templates show.
 *
 * @param document the report
 * @param studies its studies with figures
 * @param css the style, with the identity for the page margins
 */
record ReportView(ReportDocument document, List<StudyView> studies, String css) {

  boolean isDemo() {
    return document.provenance() == Provenance.DEMO;
  }
}
