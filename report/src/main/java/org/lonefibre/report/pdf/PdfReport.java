package org.lonefibre.report.pdf;

import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.DateTimeException;
import java.time.Instant;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.lonefibre.report.html.HtmlReport;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/**
 * Renders the HTML of a report as PDF: A4, page x of y and identity on each page, tagged
 * (PDF/UA-1), for archives (PDF/A-2a), every font embedded. Nothing outside the text is read: no
 * network, no file. The same text always gives the same bytes: its date is that of the result.
 *
 * <p>Safe for use by several threads.
 */
public final class PdfReport {

  static {
    XRLog.setLoggingEnabled(false); // a layout engine has nothing to say to a physician
  }

  /**
   * The PDF of a report.
   *
   * @param html what {@code HtmlReport} rendered
   * @throws IllegalStateException if the text is not well-formed
   */
  public byte[] render(String html) {
    PdfRendererBuilder builder = new PdfRendererBuilder();
    Document text = Xhtml.parsed(html);
    builder.withW3cDocument(text, "report:");
    builder.useFastMode();
    builder.usePdfUaAccessibility(true);
    builder.usePdfAConformance(PdfAConformance.PDFA_2_A);
    builder.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
    builder.withProducer("Lonefibre");
    builder.useReplacementText("?");
    for (ExternalResourceControlPriority when : ExternalResourceControlPriority.values()) {
      builder.useExternalResourceAccessControl((uri, type) -> false, when);
    }
    EmbeddedFonts.addTo(builder);
    try (BatikSVGDrawer drawer = new BatikSVGDrawer()) {
      builder.useSVGDrawer(drawer);
      try (PdfBoxRenderer renderer = builder.buildPdfRenderer();
          PDDocument document = renderer.createPDFKeepOpen()) {
        return Repeatable.bytes(document, made(text), html);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot write the PDF", e);
    }
  }

  private static Instant made(Document text) {
    NodeList metas = text.getElementsByTagName("meta");
    for (int i = 0; i < metas.getLength(); i++) {
      if (metas.item(i) instanceof Element meta
          && meta.getAttribute("name").equals(HtmlReport.MADE_AT)) {
        try {
          return Instant.parse(meta.getAttribute("content"));
        } catch (DateTimeException e) {
          break; // as written, it stands in the text
        }
      }
    }
    return Instant.EPOCH;
  }
}
