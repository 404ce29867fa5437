package org.lonefibre.report.pdf;

import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;

/**
 * Renders the HTML of a report as PDF: A4, page x of y and identity on each page, tagged
 * (PDF/UA-1), for archives (PDF/A-2a), every font embedded. Nothing outside the text is read: no
 * network, no file.
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
    builder.withW3cDocument(Xhtml.parsed(html), "report:");
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
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 20);
    builder.toStream(out);
    try (BatikSVGDrawer drawer = new BatikSVGDrawer()) {
      builder.useSVGDrawer(drawer);
      builder.run();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot write the PDF", e);
    }
    return out.toByteArray();
  }
}
