package org.lonefibre.app.declaration;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Names the values of nested records by dotted names and makes copies with other values, through
 * the records' own constructors, which check them.
 */
final class RecordTree {

  private RecordTree() {}

  /** Dotted names of all values, in the order of the records. */
  static List<String> listNames(Record root) {
    List<String> names = new ArrayList<>();
    collect("", root, names);
    return names;
  }

  private static void collect(String prefix, Record node, List<String> names) {
    for (RecordComponent component : node.getClass().getRecordComponents()) {
      Object value = value(component, node);
      if (value instanceof Record inner) {
        collect(prefix + component.getName() + ".", inner, names);
      } else {
        names.add(prefix + component.getName());
      }
    }
  }

  /** The value of a dotted name, as text. */
  static String text(Record root, String name) {
    Object node = root;
    for (String part : name.split("\\.", -1)) {
      Record parent = (Record) node;
      RecordComponent component =
          Arrays.stream(parent.getClass().getRecordComponents())
              .filter(c -> c.getName().equals(part))
              .findFirst()
              .orElseThrow(() -> new IllegalArgumentException("no setting is named " + name));
      node = value(component, parent);
    }
    return word(node);
  }

  /**
   * A copy with other values.
   *
   * @param texts values by dotted name; names that the record does not have are not looked at
   * @throws IllegalArgumentException if a value is not of the right kind or outside its range
   */
  static <R extends Record> R with(R root, Map<String, String> texts) {
    return cast(root, copy("", root, texts));
  }

  /**
   * Checks that values are of the right kind.
   *
   * @throws IllegalArgumentException naming the value that is not
   */
  static void requireKinds(Record root, Map<String, String> texts) {
    requireKinds("", root, texts);
  }

  private static void requireKinds(String prefix, Record node, Map<String, String> texts) {
    for (RecordComponent component : node.getClass().getRecordComponents()) {
      String name = prefix + component.getName();
      String text = texts.get(name);
      if (value(component, node) instanceof Record inner) {
        requireKinds(name + ".", inner, texts);
      } else if (text != null) {
        parsed(name, component.getType(), text);
      }
    }
  }

  @SuppressWarnings("unchecked")
  private static <R extends Record> R cast(R like, Record copy) {
    return (R) like.getClass().cast(copy);
  }

  private static Record copy(String prefix, Record node, Map<String, String> texts) {
    if (texts.keySet().stream().noneMatch(name -> name.startsWith(prefix))) {
      return node;
    }
    RecordComponent[] components = node.getClass().getRecordComponents();
    Class<?>[] types = new Class<?>[components.length];
    Object[] values = new Object[components.length];
    for (int i = 0; i < components.length; i++) {
      String name = prefix + components[i].getName();
      types[i] = components[i].getType();
      Object old = value(components[i], node);
      String text = texts.get(name);
      if (old instanceof Record inner) {
        values[i] = copy(name + ".", inner, texts);
      } else {
        values[i] = text == null ? old : parsed(name, types[i], text);
      }
    }
    return construct(node.getClass(), types, values);
  }

  private static Record construct(Class<? extends Record> type, Class<?>[] types, Object[] values) {
    try {
      Constructor<? extends Record> constructor = type.getDeclaredConstructor(types);
      return constructor.newInstance(values);
    } catch (InvocationTargetException e) {
      if (e.getCause() instanceof IllegalArgumentException refused) {
        throw refused;
      }
      throw new IllegalStateException("settings could not be made", e);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("settings could not be made", e);
    }
  }

  private static Object parsed(String name, Class<?> type, String text) {
    try {
      if (type == double.class) {
        return Double.parseDouble(text);
      }
      if (type == int.class) {
        return Integer.parseInt(text);
      }
      if (type == long.class) {
        return Long.parseLong(text);
      }
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(
          name
              + " must be a "
              + (type == double.class ? "number" : "whole number")
              + ", found "
              + text,
          e);
    }
    if (type.isEnum()) {
      List<String> known = new ArrayList<>();
      for (Object constant : type.getEnumConstants()) {
        if (word(constant).equals(text)) {
          return constant;
        }
        known.add(word(constant));
      }
      throw new IllegalArgumentException(
          name + " must be one of " + String.join(", ", known) + ", found " + text);
    }
    return text;
  }

  /** A value as people write it: constants in lower case with hyphens. */
  private static String word(Object value) {
    return value instanceof Enum<?> constant
        ? constant.name().toLowerCase(Locale.ROOT).replace('_', '-')
        : value.toString();
  }

  private static Object value(RecordComponent component, Record node) {
    try {
      return component.getAccessor().invoke(node);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("a public record could not be read", e);
    }
  }
}
