package org.lonefibre.report.dicom;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Words;

/**
 * The printed report as a DICOM file: Encapsulated PDF Storage (PS3.3, A.45.1), explicit VR little
 * endian, UTF-8.
 *
 * <ul>
 *   <li>The person is the code of the laboratory; no name, birth date or sex is made up.
 *   <li>Examinations of the same recordings are one DICOM study, whatever was decided since.
 *   <li>The identity of the instance is made of all that is in it: the same report is the same
 *       instance, and any other report is another one.
 * </ul>
 *
 * <p>Thread rule: safe.
 */
public final class EncapsulatedPdf {

  /** Encapsulated PDF Storage. */
  public static final String SOP_CLASS = "1.2.840.10008.5.1.4.1.1.104.1";

  private static final String EXPLICIT_LITTLE_ENDIAN = "1.2.840.10008.1.2.1";
  private static final int MOST_AGE_YEARS = 999;

  private static final int LONGEST_ACCESSION = 16;

  private final String instanceUid;
  private final String accessionNumber;
  private final byte[] file;

  private EncapsulatedPdf(String instanceUid, String accessionNumber, byte[] file) {
    this.instanceUid = instanceUid;
    this.accessionNumber = accessionNumber;
    this.file = file;
  }

  /**
   * Wraps a report.
   *
   * @param closing what people added
   * @param pdf the report as printed
   */
  public static EncapsulatedPdf of(Examination examination, Closing closing, byte[] pdf) {
    return of(examination, closing, pdf, "");
  }

  /**
   * Wraps a report that answers an order of the hospital.
   *
   * @param closing what people added
   * @param pdf the report as printed
   * @param accessionNumber number of the order; empty if there is none
   * @throws IllegalArgumentException if the number is longer than 16 characters, or holds a
   *     backslash, a control character or a space at an end
   */
  public static EncapsulatedPdf of(
      Examination examination, Closing closing, byte[] pdf, String accessionNumber) {
    if (accessionNumber.codePointCount(0, accessionNumber.length()) > LONGEST_ACCESSION
        || !accessionNumber.equals(accessionNumber.strip())
        || accessionNumber.codePoints().anyMatch(c -> c == '\\' || Character.isISOControl(c))) {
      throw new IllegalArgumentException(
          "an accession number has at most 16 characters, no backslash and no control character");
    }
    // Made twice: once without the identity to find it, once with it.
    byte[] nameless = dataSet(examination, closing, pdf, accessionNumber, "").file();
    String uid = DicomUid.of(nameless);
    return new EncapsulatedPdf(
        uid, accessionNumber, dataSet(examination, closing, pdf, accessionNumber, uid).file());
  }

  /** Number of the order it answers; empty if there is none. */
  public String accessionNumber() {
    return accessionNumber;
  }

  /** SOP Instance UID. */
  public String instanceUid() {
    return instanceUid;
  }

  /** The file. */
  public byte[] file() {
    return file.clone();
  }

  private record Whole(Part10 meta, Part10 dataSet) {
    byte[] file() {
      return Part10.file(meta, dataSet);
    }
  }

  private static Whole dataSet(
      Examination examination,
      Closing closing,
      byte[] pdf,
      String accessionNumber,
      String instanceUid) {
    Part10 meta =
        new Part10()
            .bytes(0x00020001, new byte[] {0, 1})
            .uid(0x00020002, SOP_CLASS)
            .uid(0x00020003, instanceUid)
            .uid(0x00020010, EXPLICIT_LITTLE_ENDIAN)
            .uid(0x00020012, DicomUid.IMPLEMENTATION)
            .text(0x00020013, "SH", "LONEFIBRE");
    Closing.Seal seal = closing.seal();
    LocalDateTime made = time(seal == null ? examination.createdAt() : seal.signedAt());
    String date = made == null ? "" : made.format(DateTimeFormatter.BASIC_ISO_DATE);
    String time =
        made == null ? "" : made.format(DateTimeFormatter.ofPattern("HHmmss", Locale.ROOT));
    String code = examination.subject().code();
    String study = DicomUid.named("study" + study(examination));
    Part10 data =
        new Part10()
            .word(0x00080005, "CS", "ISO_IR 192")
            .word(0x00080012, "DA", date)
            .word(0x00080013, "TM", time)
            .uid(0x00080016, SOP_CLASS)
            .uid(0x00080018, instanceUid)
            .word(0x00080020, "DA", visitDate(examination))
            .word(0x00080023, "DA", date)
            .word(0x0008002A, "DT", "")
            .word(0x00080030, "TM", "")
            .word(0x00080033, "TM", time)
            .verbatim(0x00080050, "SH", accessionNumber)
            .word(0x00080060, "CS", "DOC")
            .word(0x00080064, "CS", "WSD")
            .text(0x00080070, "LO", "Lonefibre")
            .word(0x00080090, "PN", "")
            .text(0x00081030, "LO", "Single-fibre EMG, jitter study")
            .text(0x0008103E, "LO", state(closing))
            .text(0x00081090, "LO", examination.producedBy().name())
            .text(0x00100010, "PN", "")
            .text(0x00100020, "LO", code == null ? "" : code)
            .word(0x00100030, "DA", "")
            .word(0x00100040, "CS", "")
            .word(0x00101010, "AS", age(examination.subject().ageYears()))
            .text(0x00181020, "LO", examination.producedBy().version())
            .uid(0x0020000D, study)
            .uid(0x0020000E, DicomUid.named("reports of " + study))
            .word(0x00200010, "SH", "")
            .word(0x00200011, "IS", "1")
            .word(0x00200013, "IS", "1")
            .word(0x00280301, "CS", "YES")
            .emptySequence(0x0040A043)
            .text(0x00420010, "ST", "Single-fibre EMG, jitter study, " + state(closing))
            .bytes(0x00420011, pdf)
            .text(0x00420012, "LO", "application/pdf")
            .number(0x00420015, pdf.length);
    return new Whole(meta, data);
  }

  private static String study(Examination examination) {
    StringBuilder of = new StringBuilder();
    of.append(examination.subject().code()).append('\n').append(examination.visit().date());
    examination.studies().stream()
        .flatMap(s -> s.recordings().stream())
        .map(r -> r.sha256())
        .distinct()
        .sorted()
        .forEach(hash -> of.append('\n').append(hash));
    return of.toString();
  }

  private static String state(Closing closing) {
    return closing.state() == null
        ? "automatic result, not signed"
        : closing.standing(Words.ENGLISH);
  }

  private static String age(@Nullable Double ageYears) {
    return ageYears == null || ageYears < 0 || ageYears > MOST_AGE_YEARS
        ? ""
        : String.format(Locale.ROOT, "%03dY", (int) Math.floor(ageYears));
  }

  private static String visitDate(Examination examination) {
    String date = examination.visit().date();
    try {
      return date == null
          ? ""
          : LocalDate.parse(date.strip()).format(DateTimeFormatter.BASIC_ISO_DATE);
    } catch (DateTimeException e) {
      return ""; // as written, it still stands in the report
    }
  }

  private static @Nullable LocalDateTime time(String utc) {
    try {
      return LocalDateTime.ofInstant(
          Instant.parse(utc.endsWith("Z") ? utc : utc + "Z"), ZoneOffset.UTC);
    } catch (DateTimeException e) {
      return null;
    }
  }
}
