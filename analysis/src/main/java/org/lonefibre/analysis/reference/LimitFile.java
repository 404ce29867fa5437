package org.lonefibre.analysis.reference;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitRow.CentreStatistic;
import org.lonefibre.analysis.reference.LimitRow.Exceeding;
import org.lonefibre.analysis.reference.LimitRow.NeedleSize;
import org.lonefibre.analysis.reference.LimitRow.Status;
import org.lonefibre.analysis.study.Activation;

/**
 * Limit sets of a laboratory, from a comma-separated file: a line a muscle, activation and age
 * column.
 *
 * <ul>
 *   <li>Identities begin with {@value #PREFIX}, so that no set is taken for a published one.
 *   <li>Every row names its source.
 *   <li>A value outside 1 to 1,000 us, an individual limit below the centre limit, the same cell
 *       twice, an unknown muscle or needle are refused, with file, line and column.
 *   <li>Thread rule: immutable, safe to share.
 * </ul>
 */
public final class LimitFile {

  /** What the identity of a laboratory's own set begins with. */
  public static final String PREFIX = "own-";

  private static final List<String> REQUIRED =
      List.of(
          "set_id",
          "set_name",
          "muscle",
          "needles",
          "activation",
          "centre_statistic",
          "centre_limit_us",
          "individual_limit_us",
          "source");

  private static final List<String> ALLOWED =
      List.of(
          "age_column_years",
          "subjects_from_age_years",
          "subjects_below_age_years",
          "centre_above",
          "outliers_percent_over",
          "high_pass_hz",
          "subjects",
          "signals_per_subject",
          "note");

  private static final List<String> NEEDLES =
      List.of("single-fibre", "concentric-small", "concentric-standard", "monopolar");

  private static final long LARGEST_BYTES = 1 << 20;
  private static final double HIGHEST_US = 1000;

  private final String name;
  private final String text;
  private final List<LimitRow> rows;

  private LimitFile(String name, String text, List<LimitRow> rows) {
    this.name = name;
    this.text = text;
    this.rows = List.copyOf(rows);
  }

  /**
   * Reads a file.
   *
   * @throws TableFault if it is no such table, or a value in it cannot be
   * @throws IOException if it cannot be read
   */
  public static LimitFile read(Path path) throws IOException {
    String name = String.valueOf(path.getFileName());
    if (Files.size(path) > LARGEST_BYTES) {
      throw new TableFault(
          name, 0, "", "a table of at most 1 MB", Files.size(path) + " bytes", "check the name");
    }
    return of(name, new String(Files.readAllBytes(path), StandardCharsets.UTF_8));
  }

  /**
   * Reads the text of a file.
   *
   * @throws TableFault if it is no such table, or a value in it cannot be
   */
  public static LimitFile of(String name, String text) throws TableFault {
    WrittenTable table = WrittenTable.of(name, text, REQUIRED, ALLOWED);
    MuscleNames muscles = MuscleNames.load();
    List<LimitRow> rows = new ArrayList<>();
    Map<String, Long> lines = new HashMap<>();
    for (int i = 0; i < table.size(); i++) {
      LimitRow row = row(table, i, muscles);
      Long before = lines.put(key(row), table.line(i));
      if (before != null) {
        throw table.fault(
            i, "", "each cell once", key(row) + " again, as in line " + before, "keep one of them");
      }
      rows.add(row);
    }
    return new LimitFile(name, text, rows);
  }

  private static LimitRow row(WrittenTable table, int i, MuscleNames muscles) throws TableFault {
    String set = table.required(i, "set_id");
    if (!set.matches(PREFIX + "[a-z0-9][a-z0-9-]{0,48}")) {
      throw table.fault(
          i,
          "set_id",
          PREFIX + " and small letters, digits and hyphens",
          set,
          "name it so, to keep it apart from published sets");
    }
    String muscle = table.required(i, "muscle");
    String key =
        muscles
            .findKey(muscle)
            .orElseThrow(
                () ->
                    table.fault(
                        i,
                        "muscle",
                        "a muscle of the table of muscles",
                        muscle,
                        "give one of " + String.join(", ", muscles.listKeys())));
    CentreStatistic statistic = constant(table, i, "centre_statistic", CentreStatistic.values());
    Double centreUs = table.number(i, "centre_limit_us", 1, HIGHEST_US, "us");
    if ((centreUs == null) != (statistic == CentreStatistic.NONE)) {
      throw table.fault(
          i,
          "centre_limit_us",
          statistic == CentreStatistic.NONE ? "nothing, as centre_statistic is none" : "a limit",
          centreUs == null ? "nothing" : centreUs.toString(),
          "correct one of the two");
    }
    Double individualUs = table.number(i, "individual_limit_us", 1, HIGHEST_US, "us");
    if (centreUs != null && individualUs != null && individualUs < centreUs) {
      throw table.fault(
          i,
          "individual_limit_us",
          "a limit not below that of the centre, " + centreUs + " us",
          individualUs + " us",
          "the two may be exchanged");
    }
    if (centreUs == null && individualUs == null) {
      throw table.fault(i, "individual_limit_us", "a limit", "none", "give one at least");
    }
    Double percent = table.number(i, "outliers_percent_over", 0, 50, "%");
    int over = percent == null ? 10 : (int) Math.round(percent);
    String above = table.text(i, "centre_above");
    return new LimitRow(
        set,
        table.required(i, "set_name"),
        key,
        needles(table, i),
        NeedleSize.STATED,
        constant(table, i, "activation", Activation.values()),
        whole(table.number(i, "age_column_years", 0, 120, "years")),
        whole(table.number(i, "subjects_from_age_years", 0, 120, "years")),
        whole(table.number(i, "subjects_below_age_years", 0, 130, "years")),
        statistic,
        centreUs,
        above.isEmpty()
            ? Exceeding.GREATER
            : constant(table, i, "centre_above", Exceeding.values()),
        individualUs,
        over,
        "more than " + over + " % of signals",
        table.number(i, "high_pass_hz", 1, 5000, "Hz"),
        table.text(i, "subjects"),
        whole(table.number(i, "signals_per_subject", 1, 1000, "")),
        Status.OWN,
        "",
        table.required(i, "source"),
        table.text(i, "note"));
  }

  private static List<String> needles(WrittenTable table, int i) throws TableFault {
    List<String> needles =
        Arrays.stream(table.required(i, "needles").split(";", -1)).map(String::strip).toList();
    for (String needle : needles) {
      if (!NEEDLES.contains(needle)) {
        throw table.fault(
            i, "needles", "some of " + String.join("; ", NEEDLES), needle, "correct the word");
      }
    }
    return needles;
  }

  private static <E extends Enum<E>> E constant(
      WrittenTable table, int i, String column, E[] values) throws TableFault {
    String text = table.required(i, column);
    for (E value : values) {
      String word = value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
      if (word.equals(text.toLowerCase(Locale.ROOT).replaceAll("[-_]", " "))) {
        return value;
      }
    }
    throw table.fault(
        i,
        column,
        "one of "
            + String.join(
                ", ",
                Arrays.stream(values)
                    .map(value -> value.name().toLowerCase(Locale.ROOT).replace('_', ' '))
                    .toList()),
        text,
        "correct the word");
  }

  private static @Nullable Integer whole(@Nullable Double value) {
    return value == null ? null : (int) Math.round(value);
  }

  /** Name of the file. */
  public String name() {
    return name;
  }

  /** Its text, unchanged. */
  public String text() {
    return text;
  }

  /** Identities of its sets. */
  public List<String> listSets() {
    return rows.stream().map(LimitRow::setId).distinct().toList();
  }

  /** Number of cells. */
  public int size() {
    return rows.size();
  }

  List<LimitRow> rows() {
    return rows;
  }

  static String key(LimitRow row) {
    return String.join(
        ", ",
        row.setId(),
        row.muscle(),
        String.join("; ", row.needles()),
        LimitFindings.words(row.activation()),
        row.ageColumnYears() == null ? "all ages" : "age " + row.ageColumnYears());
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof LimitFile file && file.name.equals(name) && file.text.equals(text);
  }

  @Override
  public int hashCode() {
    return Objects.hash(name, text);
  }
}
