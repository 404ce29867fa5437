package org.lonefibre.report.document;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Looks for what a document of records may not hold: an absent value where the component is not
 * {@link Nullable}, or a number that is not finite.
 */
final class Completeness {

  /**
   * A place that breaks the promise.
   *
   * @param place dotted path, for example {@code studies[0].summary.meanJitterUs}
   * @param found what stands there
   */
  record Breach(String place, String found) {}

  private Completeness() {}

  /** The first breach in reading order, or empty if there is none. */
  static Optional<Breach> findBreach(Record document) {
    return inRecord(document, "");
  }

  private static Optional<Breach> inRecord(Record record, String path) {
    for (RecordComponent component : record.getClass().getRecordComponents()) {
      String place = path.isEmpty() ? component.getName() : path + "." + component.getName();
      boolean mayBeAbsent = component.getAnnotatedType().isAnnotationPresent(Nullable.class);
      Optional<Breach> breach = inValue(value(record, component), place, mayBeAbsent);
      if (breach.isPresent()) {
        return breach;
      }
    }
    return Optional.empty();
  }

  private static Optional<Breach> inValue(
      @Nullable Object value, String place, boolean mayBeAbsent) {
    if (value == null) {
      return mayBeAbsent ? Optional.empty() : Optional.of(new Breach(place, "null"));
    }
    if (value instanceof Double number && !Double.isFinite(number)) {
      return Optional.of(new Breach(place, number.toString()));
    }
    if (value instanceof Record record) {
      return inRecord(record, place);
    }
    if (value instanceof List<?> list) {
      for (int i = 0; i < list.size(); i++) {
        Optional<Breach> breach = inValue(list.get(i), place + "[" + i + "]", false);
        if (breach.isPresent()) {
          return breach;
        }
      }
    }
    return Optional.empty();
  }

  private static @Nullable Object value(Record record, RecordComponent component) {
    try {
      return component.getAccessor().invoke(record);
    } catch (IllegalAccessException | InvocationTargetException e) {
      throw new IllegalStateException("cannot read " + component, e);
    }
  }
}
