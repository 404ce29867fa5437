package org.lonefibre.formats;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

/**
 * What a file that is no recording looks like from its first bytes, in plain words.
 *
 * @param name what it looks like
 * @param advice what to do with it
 */
record FileKind(String name, String advice) {

  private static final String EXPORT = "export the recording as EDF+";
  private static final String UNPACK = "unpack it and name the recordings in it";
  private static final String LOSSY =
      "record plain WAV or EDF+: a coding that loses detail moves and reshapes potentials, so"
          + " their jitter would be that of the coding";
  private static final String SOUND = "save it as WAV, which loses nothing";

  /** A beginning, which stands at a byte, and what it tells. */
  private record Beginning(int at, String text, FileKind kind) {}

  private static final List<Beginning> BEGINNINGS =
      List.of(
          of("PK\u0003\u0004", "a ZIP archive, or an office document", UNPACK),
          of("\u001f\u008b", "a gzip archive", UNPACK),
          of("7z\u00bc\u00af", "a 7z archive", UNPACK),
          of("Rar!", "a RAR archive", UNPACK),
          of("BZh", "a bzip2 archive", UNPACK),
          of("\u00fd7zXZ", "an xz archive", UNPACK),
          of("\u0028\u00b5\u002f\u00fd", "a Zstandard archive", UNPACK),
          of("%PDF", "a PDF document", EXPORT),
          of("%!PS", "a PostScript document", EXPORT),
          of("{\\rtf", "a rich text document", EXPORT),
          of("\u00d0\u00cf\u0011\u00e0", "an old office document", EXPORT),
          of("\u0089PNG", "an image", EXPORT),
          of("\u00ff\u00d8\u00ff", "an image", EXPORT),
          of("GIF8", "an image", EXPORT),
          of("\u0089HDF", "an HDF5 file", EXPORT),
          of("MATLAB 5.0", "a MATLAB file", EXPORT),
          of("\u0093NUMPY", "an array of NumPy", "save it as text, WAV or bare numbers (--raw)"),
          of("SQLite format 3", "a database", EXPORT),
          of("\u007fELF", "a program", EXPORT),
          of("MZ\u0090\u0000", "a program", EXPORT),
          of("\u00ff\u00fe", "text in UTF-16 that is not columns of numbers", EXPORT),
          of("\u00fe\u00ff", "text in UTF-16 that is not columns of numbers", EXPORT),
          of("RIFF", "a sound or video file", SOUND),
          of("RIFX", "a sound file", SOUND),
          of("RF64", "a sound file", SOUND),
          of("fLaC", "a sound file, packed with FLAC", SOUND),
          new Beginning(8, "AIF", new FileKind("a sound file", SOUND)),
          of(".snd", "a sound file", SOUND),
          of("caff\u0000", "a sound file", SOUND),
          of("OggS", "a sound file whose coding usually loses detail", LOSSY),
          of("ID3", "a sound file whose coding loses detail", LOSSY),
          of("\u00ff\u00fb", "a sound file whose coding loses detail", LOSSY),
          of("\u00ff\u00f3", "a sound file whose coding loses detail", LOSSY),
          of("\u00ff\u00f1", "a sound file whose coding loses detail", LOSSY),
          of("\u00ff\u00f9", "a sound file whose coding loses detail", LOSSY),
          of("#!AMR", "a sound file of a telephone, whose coding loses detail", LOSSY),
          of("\u0030\u0026\u00b2\u0075", "a sound or video file whose coding loses detail", LOSSY),
          of("\u001a\u0045\u00df\u00a3", "a video or sound file whose coding loses detail", LOSSY),
          new Beginning(
              4,
              "ftyp",
              new FileKind(
                  "a sound or video file as telephones write it, whose coding usually loses detail",
                  LOSSY)),
          new Beginning(128, "DICM", new FileKind("a DICOM object", EXPORT)));

  private static Beginning of(String text, String name, String advice) {
    return new Beginning(0, text, new FileKind(name, advice));
  }

  static FileKind of(byte[] head) {
    if (head.length == 0) {
      return new FileKind("an empty file", "copy or export it again");
    }
    String text = new String(head, StandardCharsets.ISO_8859_1);
    for (Beginning beginning : BEGINNINGS) {
      if (text.startsWith(beginning.text(), beginning.at())) {
        return beginning.kind();
      }
    }
    return new FileKind(written(head, text), EXPORT);
  }

  private static String written(byte[] head, String text) {
    String start = text.strip().toLowerCase(Locale.ROOT);
    if (start.startsWith("<!doctype html") || start.startsWith("<html")) {
      return "an HTML page";
    }
    if (start.startsWith("<?xml") || start.startsWith("<")) {
      return "an XML document";
    }
    if (start.startsWith("{") || start.startsWith("[")) {
      return "a JSON document";
    }
    boolean isZero = true;
    boolean isText = true;
    for (byte b : head) {
      isZero &= b == 0;
      isText &= b < 0 || b >= ' ' || b == '\t' || b == '\r' || b == '\n';
    }
    if (isZero) {
      return "nothing but zeros, as a copy that was broken off leaves";
    }
    return isText ? "text that is not columns of numbers" : "bytes of no known format";
  }
}
