package org.lonefibre.report.dicom;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import org.lonefibre.report.document.PlainText;

/**
 * Elements in explicit VR, little endian, in the order in which they are put (DICOM PS3.5, 7.1.2
 * and 10). Values are padded to an even length; text is UTF-8, cut to what its representation
 * allows.
 */
final class Part10 {

  private static final byte[] PREAMBLE = new byte[128];

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();

  /** A whole file: preamble, prefix, meta elements with their length, data set. */
  static byte[] file(Part10 meta, Part10 dataSet) {
    Part10 file = new Part10();
    file.out.writeBytes(PREAMBLE);
    file.out.writeBytes("DICM".getBytes(StandardCharsets.US_ASCII));
    file.number(0x00020000, meta.out.size());
    file.out.writeBytes(meta.out.toByteArray());
    file.out.writeBytes(dataSet.out.toByteArray());
    return file.out.toByteArray();
  }

  /** CS, DA, TM, IS, AS: words of the standard. */
  Part10 word(int tag, String vr, String value) {
    return shortForm(tag, vr, padded(value, ' '));
  }

  /** SH: a number of another system, as it is. */
  Part10 verbatim(int tag, String vr, String value) {
    return shortForm(tag, vr, padded(value, ' '));
  }

  /** UI. */
  Part10 uid(int tag, String uid) {
    return shortForm(tag, "UI", padded(uid, '\0'));
  }

  /** SH, LO, PN, ST: text of people and files; a backslash would part it in two values. */
  Part10 text(int tag, String vr, String value) {
    int most =
        switch (vr) {
          case "SH" -> 16;
          case "ST" -> 1024;
          default -> 64;
        };
    String plain = PlainText.of(value).replaceAll("[\\\\^=\\s]+", " ").strip();
    int length = Math.min(most, plain.codePointCount(0, plain.length()));
    return shortForm(tag, vr, padded(plain.substring(0, plain.offsetByCodePoints(0, length)), ' '));
  }

  /** UL. */
  Part10 number(int tag, int value) {
    head(tag, "UL");
    shortNumber(4);
    longNumber(value);
    return this;
  }

  /** OB. */
  Part10 bytes(int tag, byte[] value) {
    head(tag, "OB");
    shortNumber(0);
    longNumber(value.length + value.length % 2);
    out.writeBytes(value);
    if (value.length % 2 == 1) {
      out.write(0);
    }
    return this;
  }

  /** A sequence without items. */
  Part10 emptySequence(int tag) {
    head(tag, "SQ");
    shortNumber(0);
    longNumber(0);
    return this;
  }

  private Part10 shortForm(int tag, String vr, byte[] value) {
    head(tag, vr);
    shortNumber(value.length);
    out.writeBytes(value);
    return this;
  }

  private void head(int tag, String vr) {
    shortNumber(tag >>> 16);
    shortNumber(tag & 0xFFFF);
    out.writeBytes(vr.getBytes(StandardCharsets.US_ASCII));
  }

  private void shortNumber(int value) {
    out.write(value);
    out.write(value >>> 8);
  }

  private void longNumber(int value) {
    shortNumber(value & 0xFFFF);
    shortNumber(value >>> 16);
  }

  private static byte[] padded(String value, char pad) {
    byte[] bytes = value.getBytes(StandardCharsets.UTF_8);
    return bytes.length % 2 == 0 ? bytes : (value + pad).getBytes(StandardCharsets.UTF_8);
  }
}
