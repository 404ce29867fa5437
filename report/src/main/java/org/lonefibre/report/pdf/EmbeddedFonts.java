package org.lonefibre.report.pdf;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.EnumSet;
import java.util.Objects;
import java.util.Set;

/** The fonts of the report, DejaVu, as the library on the class path carries them. */
final class EmbeddedFonts {

  private static final String FOLDER = "/net/sf/jasperreports/fonts/dejavu/";
  private static final int REGULAR = 400;
  private static final int BOLD = 700;
  private static final Set<FSFontUseCase> TEXT = EnumSet.of(FSFontUseCase.DOCUMENT);
  private static final Set<FSFontUseCase> TEXT_AND_FIGURES =
      EnumSet.of(FSFontUseCase.DOCUMENT, FSFontUseCase.SVG);

  private EmbeddedFonts() {}

  static void addTo(PdfRendererBuilder builder) {
    add(builder, "DejaVuSansCondensed", "DejaVu Sans Condensed", REGULAR, TEXT_AND_FIGURES);
    add(builder, "DejaVuSansCondensed-Bold", "DejaVu Sans Condensed", BOLD, TEXT_AND_FIGURES);
    add(builder, "DejaVuSerifCondensed", "DejaVu Serif Condensed", REGULAR, TEXT);
    add(builder, "DejaVuSansMono", "DejaVu Sans Mono", REGULAR, TEXT);
  }

  private static void add(
      PdfRendererBuilder builder, String file, String family, int weight, Set<FSFontUseCase> use) {
    byte[] font = read(FOLDER + file + ".ttf");
    builder.useFont(
        () -> new ByteArrayInputStream(font), family, weight, FontStyle.NORMAL, true, use);
  }

  private static byte[] read(String resource) {
    try (InputStream in =
        Objects.requireNonNull(EmbeddedFonts.class.getResourceAsStream(resource), resource)) {
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + resource, e);
    }
  }
}
