package org.lonefibre.formats.edf;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.formats.reader.HeaderField;

/** The fields of a header with their bytes (Kemp et al. 1992), as they are shown to a person. */
final class EdfFields {

  private record Field(String name, int width) {}

  private static final List<Field> OF_FILE =
      List.of(
          new Field("version", 8),
          new Field("patient", 80),
          new Field("recording", 80),
          new Field("start date", 8),
          new Field("start time", 8),
          new Field("bytes in header", 8),
          new Field("reserved", 44),
          new Field("number of records", 8),
          new Field("duration of a record", 8),
          new Field("number of signals", 4));

  private static final List<Field> OF_SIGNAL =
      List.of(
          new Field("label", 16),
          new Field("transducer", 80),
          new Field("unit", 8),
          new Field("physical minimum", 8),
          new Field("physical maximum", 8),
          new Field("digital minimum", 8),
          new Field("digital maximum", 8),
          new Field("prefilter", 80),
          new Field("samples in a record", 8),
          new Field("reserved", 32));

  private EdfFields() {}

  /**
   * @param bytes the whole header
   * @param signals number of signals, annotation signals too
   */
  static List<HeaderField> list(byte[] bytes, int signals) {
    List<HeaderField> fields = new ArrayList<>();
    int at = 0;
    for (Field field : OF_FILE) {
      fields.add(field(bytes, field, 0, at));
      at += field.width();
    }
    for (Field field : OF_SIGNAL) {
      for (int s = 1; s <= signals; s++) {
        fields.add(field(bytes, field, s, at));
        at += field.width();
      }
    }
    return fields;
  }

  private static HeaderField field(byte[] bytes, Field field, int signal, int at) {
    String text = EdfHeader.text(bytes, at, field.width());
    return new HeaderField(field.name(), signal, at, at + field.width() - 1L, text);
  }
}
