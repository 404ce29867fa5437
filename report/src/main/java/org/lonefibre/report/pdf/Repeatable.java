package org.lonefibre.report.pdf;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Locale;
import java.util.TimeZone;
import java.util.UUID;
import java.util.regex.Pattern;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDMetadata;

/** Writes a PDF without the clock of the computer: identity and dates come from its text. */
final class Repeatable {

  private static final Pattern CREATED =
      Pattern.compile("(<xmp:(?:Create|Modify|Metadata)Date>)[^<]*(</xmp:)");

  private Repeatable() {}

  static byte[] bytes(PDDocument document, Instant made, String text) throws IOException {
    Calendar calendar = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
    calendar.setTimeInMillis(made.getEpochSecond() * 1000);
    document.getDocumentInformation().setCreationDate(calendar);
    PDMetadata metadata = document.getDocumentCatalog().getMetadata();
    if (metadata != null) {
      String xmp = new String(metadata.toByteArray(), StandardCharsets.UTF_8);
      String dated =
          CREATED
              .matcher(xmp)
              .replaceAll("$1" + Instant.ofEpochSecond(made.getEpochSecond()) + "$2");
      metadata.importXMPMetadata(dated.getBytes(StandardCharsets.UTF_8));
    }
    UUID identity = UUID.nameUUIDFromBytes(text.getBytes(StandardCharsets.UTF_8));
    document.setDocumentId(identity.getMostSignificantBits());
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 20);
    document.save(out);
    return out.toByteArray();
  }
}
