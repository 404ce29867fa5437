package org.lonefibre.report.pdf;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.graphics.PDXObject;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.ReportReader;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.document.Rounded;
import org.lonefibre.report.document.SignalEntry;

/** The PDF, read back by the library that reads PDFs. */
@Tag("contract")
class PdfReportTest {

  @Test
  void everyPageSaysWhichItIsAndWhose() throws IOException {
    try (PDDocument pdf = pdf(ExaminationSample.voluntary())) {
      int pages = pdf.getNumberOfPages();
      assertThat(pages).isGreaterThan(3);
      for (int page = 1; page <= pages; page++) {
        assertThat(text(pdf, page, page))
            .contains("page " + page + " of " + pages)
            .contains("DEMO-0042")
            .contains("visit 2026-03-14");
      }
    }
  }

  @Test
  void everyFontIsInTheFile() throws IOException {
    try (PDDocument pdf = pdf(ExaminationSample.voluntary())) {
      int fonts = 0;
      for (PDPage page : pdf.getPages()) {
        fonts += embedded(page.getResources());
      }
      assertThat(fonts).isPositive();
    }
  }

  @Test
  void theTextAndTheNumbersAreThoseOfTheDocument() throws IOException {
    Examination examination = ExaminationSample.voluntary();
    try (PDDocument pdf = pdf(examination)) {
      String text = text(pdf, 1, pdf.getNumberOfPages());
      assertThat(text.indexOf("What can be claimed"))
          .isPositive()
          .isLessThan(text.indexOf("What was left out, and why"));
      assertThat(text.indexOf("What was left out, and why"))
          .isLessThan(text.indexOf("Signal by signal"));
      assertThat(text).contains("9 consecutive differences, 20 are needed.");
      for (SignalEntry signal : ReportDocument.of(examination).studies().get(0).signals()) {
        assertThat(text).contains(Rounded.jitter(signal.measures().jitterUs()));
        assertThat(text).contains(signal.corrected());
      }
    }
  }

  @Test
  void hostileTextEndsInThePdfAsText() throws IOException {
    try (PDDocument pdf = pdf(ExaminationSample.hostile())) {
      assertThat(text(pdf, 1, pdf.getNumberOfPages())).contains("<script>alert('x')</script>");
      assertThat(pdf.getDocumentCatalog().getOpenAction()).isNull();
      for (PDPage page : pdf.getPages()) {
        assertThat(page.getAnnotations()).isEmpty();
      }
    }
  }

  private static PDDocument pdf(Examination examination) throws IOException {
    return Loader.loadPDF(new PdfReport().render(ReportReader.html(examination)));
  }

  private static String text(PDDocument pdf, int first, int last) throws IOException {
    PDFTextStripper stripper = new PDFTextStripper();
    stripper.setStartPage(first);
    stripper.setEndPage(last);
    return stripper.getText(pdf).replaceAll("\\s+", " ");
  }

  private static int embedded(PDResources resources) throws IOException {
    int fonts = 0;
    for (COSName name : resources.getFontNames()) {
      PDFont font = resources.getFont(name);
      assertThat(font.isEmbedded()).as(font.getName()).isTrue();
      fonts++;
    }
    for (COSName name : resources.getXObjectNames()) {
      PDXObject object = resources.getXObject(name);
      if (object instanceof PDFormXObject form && form.getResources() != null) {
        fonts += embedded(form.getResources());
      }
    }
    return fonts;
  }
}
