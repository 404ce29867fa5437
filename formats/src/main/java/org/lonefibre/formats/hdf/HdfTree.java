package org.lonefibre.formats.hdf;

import io.jhdf.HdfFile;
import io.jhdf.api.Attribute;
import io.jhdf.api.Dataset;
import io.jhdf.api.Group;
import io.jhdf.api.Node;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.Variables.Candidate;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * What in an HDF5 file could be a signal. A group that is a time series of NWB (Teeters et al.
 * 2015; it has a type, data, and a starting time with a rate, or times) stands for its data.
 */
final class HdfTree {

  private static final int DEEPEST = 16;

  /** More than anyone can choose from; engineering choice. */
  private static final int MOST_NODES = 20_000;

  private static final int MOST_NUMBERS = 8;
  private static final int LONGEST_TIME = 200;

  private final String file;
  private final Map<String, HdfSeries> series = new LinkedHashMap<>();
  private final List<String> numbers = new ArrayList<>();
  private @Nullable LocalDateTime start;
  private boolean isNwb;
  private boolean isMatlab;
  private int nodes;

  private HdfTree(String file) {
    this.file = file;
  }

  static HdfTree of(String file, HdfFile opened) throws RecordingFormatException {
    HdfTree tree = new HdfTree(file);
    tree.isMatlab = opened.getUserBlockSize() >= 512;
    tree.isNwb = opened.getAttributes().containsKey("nwb_version");
    tree.start = tree.isNwb ? start(opened) : null;
    tree.walk(opened, "", 0);
    return tree;
  }

  String format() {
    return isNwb ? "NWB" : isMatlab ? "MATLAB 7.3" : "HDF5";
  }

  /** The time from which an NWB file counts, local as written; empty if none can be read. */
  Optional<LocalDateTime> findStart() {
    return Optional.ofNullable(start);
  }

  private static @Nullable LocalDateTime start(HdfFile file) {
    for (String name : List.of("timestamps_reference_time", "session_start_time")) {
      if (file.getChildren().get(name) instanceof Dataset dataset
          && dataset.isScalar()
          && dataset.getDataType().getSize() <= LONGEST_TIME
          && dataset.getData() instanceof String text) {
        try {
          return LocalDateTime.from(
              DateTimeFormatter.ISO_DATE_TIME.parseBest(
                  text.strip(), OffsetDateTime::from, LocalDateTime::from));
        } catch (DateTimeException e) {
          continue;
        }
      }
    }
    return null;
  }

  List<Candidate> candidates() {
    List<Candidate> candidates = new ArrayList<>();
    series.forEach((name, one) -> candidates.add(new Candidate(name, description(one.data()))));
    return candidates;
  }

  /** Single numbers with their names, as text. */
  String numbers() {
    return String.join(", ", numbers);
  }

  HdfSeries series(String name) throws RecordingFormatException {
    HdfSeries found = series.get(name);
    if (found == null) {
      throw new RecordingFormatException(
          file, "variables", "the variable " + name, "nothing", "check the name");
    }
    return found;
  }

  private void walk(Group group, String path, int depth) throws RecordingFormatException {
    for (Map.Entry<String, Node> entry : group.getChildren().entrySet()) {
      if (++nodes > MOST_NODES || depth > DEEPEST) {
        throw new RecordingFormatException(
            file,
            "groups",
            "at most " + MOST_NODES + " nodes, " + DEEPEST + " deep",
            "more",
            "export the signal alone");
      }
      String name = path.isEmpty() ? entry.getKey() : path + "/" + entry.getKey();
      Node node = entry.getValue();
      if (entry.getKey().startsWith("#") || node.isLink()) {
        continue;
      }
      if (node instanceof Dataset dataset) {
        dataset(name, dataset);
      } else if (node instanceof Group child) {
        HdfSeries found = timeSeries(child);
        if (found != null) {
          series.put(name, found);
        } else {
          walk(child, name, depth + 1);
        }
      }
    }
  }

  private void dataset(String name, Dataset dataset) {
    if (dataset.isEmpty()) {
      return;
    }
    if (dataset.isScalar()) {
      Double value =
          PlainNumbers.holds(dataset) && numbers.size() < MOST_NUMBERS
              ? number(dataset.getData())
              : null;
      if (value != null) {
        numbers.add(name + " = " + value);
      }
    } else if (PlainNumbers.holds(dataset)
        && dataset.getDimensionsAsLong().length <= 2
        && dataset.getSize() > 1) {
      series.put(name, new HdfSeries(dataset, null, null, 0, "", 1, 0, false));
    }
  }

  private static @Nullable HdfSeries timeSeries(Group group) {
    if (!group.getAttributes().containsKey("neurodata_type")
        || !(group.getChildren().get("data") instanceof Dataset data)
        || !PlainNumbers.holds(data)
        || data.getDimensionsAsLong().length > 2
        || data.getSize() < 2) {
      return null;
    }
    Node start = group.getChildren().get("starting_time");
    Node times = group.getChildren().get("timestamps");
    Double rateHz = start == null ? null : number(start, "rate");
    Double startS =
        start instanceof Dataset scalar && scalar.isScalar() && PlainNumbers.holds(scalar)
            ? number(scalar.getData())
            : null;
    Double conversion = number(data, "conversion");
    Double offset = number(data, "offset");
    return new HdfSeries(
        data,
        times instanceof Dataset timestamps && PlainNumbers.holds(timestamps) ? timestamps : null,
        rateHz,
        startS == null ? 0 : startS,
        text(data, "unit"),
        conversion == null ? 1 : conversion,
        offset == null ? 0 : offset,
        true);
  }

  private static @Nullable Double number(Node node, String attribute) {
    Attribute found = node.getAttributes().get(attribute);
    return found == null ? null : number(found.getData());
  }

  private static @Nullable Double number(@Nullable Object value) {
    if (value instanceof Number number) {
      return Double.isFinite(number.doubleValue()) ? number.doubleValue() : null;
    }
    if (value != null
        && value.getClass().isArray()
        && java.lang.reflect.Array.getLength(value) == 1) {
      return number(java.lang.reflect.Array.get(value, 0));
    }
    return null;
  }

  private static String text(Node node, String attribute) {
    Attribute found = node.getAttributes().get(attribute);
    return found != null && found.getData() instanceof String text ? text : "";
  }

  private static String description(Dataset dataset) {
    StringBuilder text = new StringBuilder();
    for (long side : dataset.getDimensionsAsLong()) {
      text.append(text.isEmpty() ? "" : " by ").append(side);
    }
    return text + ", " + dataset.getJavaType();
  }
}
