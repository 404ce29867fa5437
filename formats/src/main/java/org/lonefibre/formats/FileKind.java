package org.lonefibre.formats;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/** Says in plain words what a file that is no recording looks like, from its first bytes. */
final class FileKind {

  private static final Map<String, String> BEGINNINGS = beginnings();

  private FileKind() {}

  private static Map<String, String> beginnings() {
    Map<String, String> kinds = new LinkedHashMap<>();
    kinds.put("PK", "a ZIP archive, or an office document");
    kinds.put("%PDF", "a PDF document");
    kinds.put("\u001f\u008b", "a gzip archive");
    kinds.put("7z\u00bc\u00af", "a 7z archive");
    kinds.put("Rar!", "a RAR archive");
    kinds.put("RIFF", "a sound or video file");
    kinds.put("RIFX", "a sound file");
    kinds.put("RF64", "a sound file");
    kinds.put("fLaC", "a sound file");
    kinds.put("OggS", "a sound file");
    kinds.put("ID3", "a sound file");
    kinds.put("\u0089PNG", "an image");
    kinds.put("\u00ff\u00d8\u00ff", "an image");
    kinds.put("GIF8", "an image");
    kinds.put("\u0089HDF", "an HDF5 file");
    kinds.put("MATLAB 5.0", "a MATLAB file");
    kinds.put("\u00d0\u00cf\u0011\u00e0", "an old office document");
    kinds.put("SQLite format 3", "a database");
    kinds.put("\u00ff\u00fe", "text in UTF-16 that is not columns of numbers");
    kinds.put("\u00fe\u00ff", "text in UTF-16 that is not columns of numbers");
    kinds.put("%!PS", "a PostScript document");
    kinds.put("{\\rtf", "a rich text document");
    return kinds;
  }

  static String describe(byte[] head) {
    if (head.length == 0) {
      return "an empty file";
    }
    String text = new String(head, StandardCharsets.ISO_8859_1);
    for (Map.Entry<String, String> kind : BEGINNINGS.entrySet()) {
      if (text.startsWith(kind.getKey())) {
        return kind.getValue();
      }
    }
    if (text.length() > 132 && text.startsWith("DICM", 128)) {
      return "a DICOM object";
    }
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
    for (byte b : head) {
      if (b >= 0 && b < ' ' && b != '\t' && b != '\r' && b != '\n') {
        return "bytes of no known format";
      }
    }
    return "text that is not columns of numbers";
  }
}
