package org.lonefibre.formats.mat;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.Variables.Candidate;

/**
 * The real matrices of a file, also those in structures. Only their descriptions are read; numbers
 * stay in the file.
 */
final class MatVariables implements Closeable {

  private static final int HEADER_BYTES = 128;
  private static final int SUBSYSTEM_AT = 116;
  private static final int DEEPEST = 8;
  private static final int MOST_NUMBERS = 8;

  /** More than anyone can choose from; engineering choice. */
  private static final int MOST_ELEMENTS = 20_000;

  private static final int STRUCTURE = 2;
  private static final int COMPLEX_OR_LOGICAL = 0x0A00;

  private final StoredBytes file;
  private final ByteOrder order;
  private final List<MatBytes> parts = new ArrayList<>();
  private final Map<String, MatMatrix> matrices = new LinkedHashMap<>();
  private int elements;

  private MatVariables(StoredBytes file, ByteOrder order) {
    this.file = file;
    this.order = order;
  }

  /** Looks through a file; it is closed with the variables. */
  static MatVariables of(String name, FileChannel channel) throws IOException {
    StoredBytes file = new StoredBytes(name, channel);
    long size = channel.size();
    ByteBuffer header = file.some(0, HEADER_BYTES, ByteOrder.LITTLE_ENDIAN);
    ByteOrder order =
        header.get(HEADER_BYTES - 1) == 'M' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN;
    long subsystem = header.order(order).getLong(SUBSYSTEM_AT);
    MatVariables variables = new MatVariables(file, order);
    long position = HEADER_BYTES;
    while (position < size) {
      MatTag tag = MatTag.read(file, position, size, order);
      if (position != subsystem) {
        variables.top(position, tag);
      }
      position = tag.next();
    }
    return variables;
  }

  private void top(long position, MatTag tag) throws IOException {
    if (tag.type() == MatTag.COMPRESSED) {
      InflatedBytes inflated = file.inflated(tag.at(), tag.bytes());
      parts.add(inflated);
      MatTag inner = MatTag.read(inflated, 0, inflated.mostBytes(), order);
      requireMatrix(inflated, 0, inner);
      matrix(inflated, inner, "", 0);
      inflated.rest();
    } else {
      requireMatrix(file, position, tag);
      matrix(file, tag, "", 0);
    }
  }

  private static void requireMatrix(MatBytes bytes, long position, MatTag tag) throws IOException {
    if (tag.type() != MatTag.MATRIX) {
      throw bytes.fault(position, "a variable (type 14 or 15)", "type " + tag.type());
    }
  }

  /** Goes into a matrix; what is no real matrix and no single structure is passed over. */
  private void matrix(MatBytes bytes, MatTag tag, String given, int depth) throws IOException {
    if (++elements > MOST_ELEMENTS) {
      throw bytes.fault(tag.at(), "at most " + MOST_ELEMENTS + " variables", "more");
    }
    if (tag.bytes() == 0) {
      return;
    }
    long end = tag.at() + tag.bytes();
    MatTag flags = MatTag.read(bytes, tag.at(), end, order);
    if (flags.bytes() < 4) {
      throw bytes.fault(flags.at(), "the class of a variable", flags.bytes() + " bytes");
    }
    int word = bytes.some(flags.at(), 4, order).getInt();
    int number = word & 0xFF;
    MatType kind = MatType.findClass(number);
    if (number != STRUCTURE && kind == null) {
      return;
    }
    MatTag sides = MatTag.read(bytes, flags.next(), end, order);
    MatTag title = MatTag.read(bytes, sides.next(), end, order);
    if (sides.bytes() != 8) {
      return;
    }
    ByteBuffer two = bytes.some(sides.at(), 8, order);
    long rows = two.getInt();
    long columns = two.getInt();
    if (rows < 0 || columns < 0) {
      throw bytes.fault(sides.at(), "sides of 0 or more", rows + " by " + columns);
    }
    String name = given.isEmpty() ? text(bytes, title.at(), title.bytes()) : given;
    if (name.isEmpty()) {
      return;
    }
    if (kind == null) {
      if (rows == 1 && columns == 1 && depth < DEEPEST) {
        structure(bytes, title.next(), end, name, depth);
      }
    } else if ((word & COMPLEX_OR_LOGICAL) == 0) {
      numbers(bytes, title.next(), end, name, rows, columns, kind);
    }
  }

  private void structure(MatBytes bytes, long position, long end, String name, int depth)
      throws IOException {
    MatTag length = MatTag.read(bytes, position, end, order);
    if (length.bytes() != 4) {
      throw bytes.fault(length.at(), "the length of a field's name", length.bytes() + " bytes");
    }
    int longest = bytes.some(length.at(), 4, order).getInt();
    MatTag names = MatTag.read(bytes, length.next(), end, order);
    if (longest < 1 || names.bytes() % longest != 0) {
      throw bytes.fault(length.at(), "names of fields of one length", longest + " bytes");
    }
    long at = names.next();
    for (long f = 0; f < names.bytes() / longest; f++) {
      MatTag field = MatTag.read(bytes, at, end, order);
      requireMatrix(bytes, at, field);
      String own = text(bytes, names.at() + f * longest, longest);
      matrix(bytes, field, name + "." + own, depth + 1);
      at = field.next();
    }
  }

  private void numbers(
      MatBytes bytes, long position, long end, String name, long rows, long columns, MatType kind)
      throws IOException {
    MatTag data = MatTag.read(bytes, position, end, order);
    MatType stored = MatType.findStored(data.type());
    if (stored == null) {
      throw bytes.fault(position, "numbers of a known kind", "type " + data.type());
    }
    if (data.bytes() != (double) rows * columns * stored.width) {
      throw bytes.fault(
          position, "the numbers of " + rows + " by " + columns, data.bytes() + " bytes");
    }
    MatMatrix matrix = new MatMatrix(rows, columns, kind, stored, bytes, data.at(), order);
    if (matrices.put(name, matrix) != null) {
      throw bytes.fault(position, "every variable once", name + " twice");
    }
  }

  /** Characters up to a zero byte. */
  private String text(MatBytes bytes, long position, long count) throws IOException {
    ByteBuffer buffer = bytes.some(position, count, order);
    String text = StandardCharsets.UTF_8.decode(buffer).toString();
    int zero = text.indexOf('\0');
    return zero < 0 ? text : text.substring(0, zero);
  }

  /** Matrices of two numbers or more. */
  List<Candidate> candidates() {
    List<Candidate> candidates = new ArrayList<>();
    matrices.forEach(
        (name, matrix) -> {
          if (matrix.numbers() > 1) {
            candidates.add(new Candidate(name, matrix.description()));
          }
        });
    return candidates;
  }

  /** Single numbers with their names, as text. */
  String numbers() throws IOException {
    List<String> numbers = new ArrayList<>();
    for (Map.Entry<String, MatMatrix> entry : matrices.entrySet()) {
      if (entry.getValue().numbers() == 1 && numbers.size() < MOST_NUMBERS) {
        numbers.add(entry.getKey() + " = " + entry.getValue().number());
        entry.getValue().bytes().rest();
      }
    }
    return String.join(", ", numbers);
  }

  @Nullable MatMatrix findMatrix(String name) {
    return matrices.get(name);
  }

  @Override
  public void close() throws IOException {
    for (MatBytes part : parts) {
      part.close();
    }
    file.close();
  }
}
