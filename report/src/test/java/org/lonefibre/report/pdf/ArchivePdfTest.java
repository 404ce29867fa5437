package org.lonefibre.report.pdf;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.html.HtmlReport;
import org.verapdf.pdfa.flavours.PDFAFlavour;

/** The PDF against the standards for archives and for readers who cannot see it, by veraPDF. */
@Tag("crossCheck")
class ArchivePdfTest {

  private static final Closing SIGNED =
      new Closing(
          "Invented study",
          Closing.State.SIGNED,
          null,
          "Seen twice.\nSecond line.",
          "Invented conclusion.",
          new Closing.Seal(
              1, false, "R. Example", "2026-03-15T08:00:00Z", "approved", "ab".repeat(32), "AAAA"));

  @ParameterizedTest
  @EnumSource(names = {"PDFA_2_B", "PDFA_2_A", "PDFUA_1"})
  void everyKindOfReportIsFitForTheArchiveAndTagged(PDFAFlavour flavour) throws Exception {
    assertThat(ArchiveValidator.breaches(pdf(ExaminationSample.voluntary(), SIGNED), flavour))
        .isEmpty();
    assertThat(
            ArchiveValidator.breaches(pdf(ExaminationSample.stimulated(), Closing.NONE), flavour))
        .isEmpty();
    assertThat(
            ArchiveValidator.breaches(pdf(ExaminationSample.refusedOnly(), Closing.NONE), flavour))
        .isEmpty();
    assertThat(ArchiveValidator.breaches(pdf(ExaminationSample.hostile(), SIGNED), flavour))
        .isEmpty();
  }

  @Test
  void theValidatorSeesWhatIsWrong() throws Exception {
    byte[] pdf = pdf(ExaminationSample.stimulated(), Closing.NONE);
    String text = new String(pdf, StandardCharsets.ISO_8859_1);
    byte[] spoilt =
        text.replace("pdfaid:part>2", "pdfaid:part>7").getBytes(StandardCharsets.ISO_8859_1);
    assertThat(spoilt).isNotEqualTo(pdf);
    assertThat(ArchiveValidator.breaches(spoilt, PDFAFlavour.PDFA_2_B)).isNotEmpty();
  }

  private static byte[] pdf(Examination examination, Closing closing) {
    return new PdfReport().render(new HtmlReport().render(ReportDocument.of(examination, closing)));
  }
}
