package org.lonefibre.report.document;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
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
    return inRecord(document);
  }

  /** A component with what must be known of it; asking for it anew for each record is slow. */
  private record Part(String name, Method accessor, boolean mayBeAbsent) {}

  private static final ClassValue<List<Part>> PARTS =
      new ClassValue<>() {
        @Override
        protected List<Part> computeValue(Class<?> type) {
          List<Part> parts = new ArrayList<>();
          for (RecordComponent component : type.getRecordComponents()) {
            parts.add(
                new Part(
                    component.getName(),
                    component.getAccessor(),
                    component.getAnnotatedType().isAnnotationPresent(Nullable.class)));
          }
          return List.copyOf(parts);
        }
      };

  private static Optional<Breach> inRecord(Record record) {
    for (Part part : PARTS.get(record.getClass())) {
      Optional<Breach> breach = inValue(value(record, part), part.mayBeAbsent());
      if (breach.isPresent()) {
        Breach within = breach.get();
        return Optional.of(new Breach(part.name() + within.place(), within.found()));
      }
    }
    return Optional.empty();
  }

  /** The breach within a value, its place from there on: empty, {@code .name} or {@code [0]}. */
  private static Optional<Breach> inValue(@Nullable Object value, boolean mayBeAbsent) {
    if (value == null) {
      return mayBeAbsent ? Optional.empty() : Optional.of(new Breach("", "null"));
    }
    if (value instanceof Double number) {
      return Double.isFinite(number)
          ? Optional.empty()
          : Optional.of(new Breach("", number.toString()));
    }
    if (value instanceof Record record) {
      return inRecord(record).map(breach -> new Breach("." + breach.place(), breach.found()));
    }
    if (value instanceof List<?> list) {
      for (int i = 0; i < list.size(); i++) {
        Optional<Breach> breach = inValue(list.get(i), false);
        if (breach.isPresent()) {
          return Optional.of(
              new Breach("[" + i + "]" + breach.get().place(), breach.get().found()));
        }
      }
    }
    return Optional.empty();
  }

  private static @Nullable Object value(Record record, Part part) {
    try {
      return part.accessor().invoke(record);
    } catch (IllegalAccessException | InvocationTargetException e) {
      throw new IllegalStateException("cannot read " + part.name(), e);
    }
  }
}
