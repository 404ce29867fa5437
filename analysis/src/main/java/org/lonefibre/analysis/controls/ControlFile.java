package org.lonefibre.analysis.controls;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.MuscleNames;
import org.lonefibre.analysis.reference.TableFault;
import org.lonefibre.analysis.reference.WrittenTable;
import org.lonefibre.analysis.study.Activation;

/**
 * Controls from a comma-separated file, a line a signal: {@code subject, age_years, muscle, needle,
 * activation, signal, jitter_us} and, if the program accepted them, {@code grading_version}.
 *
 * <ul>
 *   <li>The lines of a subject stand together. A subject that comes again, a signal that comes
 *       again, or an age that changes is a subject entered twice: refused.
 *   <li>Signals accepted by different versions of the grading are refused: limits hold for one.
 * </ul>
 */
public final class ControlFile {

  private static final List<String> REQUIRED =
      List.of("subject", "muscle", "needle", "activation", "signal", "jitter_us");
  private static final List<String> ALLOWED = List.of("age_years", "grading_version");
  private static final double HIGHEST_US = 2000;
  private static final long LARGEST_BYTES = 16 << 20;

  private record Series(String subject, String muscle, String needle, Activation activation) {}

  private ControlFile() {}

  /**
   * Reads a file.
   *
   * @throws TableFault if it is no such table, or a subject is in it twice
   * @throws IOException if it cannot be read
   */
  public static List<Control> read(Path path) throws IOException {
    String name = String.valueOf(path.getFileName());
    if (Files.size(path) > LARGEST_BYTES) {
      throw new TableFault(
          name, 0, "", "a table of at most 16 MB", Files.size(path) + " bytes", "check the name");
    }
    return of(name, new String(Files.readAllBytes(path), StandardCharsets.UTF_8));
  }

  /**
   * Reads the text of a file.
   *
   * @throws TableFault if it is no such table, or a subject is in it twice
   */
  public static List<Control> of(String file, String text) throws TableFault {
    WrittenTable table = WrittenTable.of(file, text, REQUIRED, ALLOWED);
    MuscleNames muscles = MuscleNames.load();
    List<Control> controls = new ArrayList<>();
    Map<Series, Long> begun = new HashMap<>();
    Set<String> signals = new HashSet<>();
    List<Double> jitters = new ArrayList<>();
    Series open = null;
    Double age = null;
    String grading = table.text(0, "grading_version");
    for (int i = 0; i < table.size(); i++) {
      Series series = series(table, i, muscles);
      Double itsAge = table.number(i, "age_years", 0, 130, "years");
      if (!series.equals(open)) {
        Long before = begun.put(series, table.line(i));
        if (before != null) {
          throw twice(table, i, series, "again, first in line " + before);
        }
        if (open != null) {
          controls.add(control(open, age, grading, jitters));
        }
        open = series;
        age = itsAge;
        jitters.clear();
        signals.clear();
      } else if (age == null ? itsAge != null : !age.equals(itsAge)) {
        throw twice(table, i, series, "with another age");
      }
      if (!signals.add(table.required(i, "signal"))) {
        throw twice(table, i, series, "with signal " + table.text(i, "signal") + " again");
      }
      if (!table.text(i, "grading_version").equals(grading)) {
        throw table.fault(
            i,
            "grading_version",
            "one version of the grading in the whole file, " + grading,
            table.text(i, "grading_version"),
            "analyse all controls with one version");
      }
      Double jitterUs = table.number(i, "jitter_us", 0.1, HIGHEST_US, "us");
      if (jitterUs == null) {
        throw table.fault(i, "jitter_us", "a jitter", "nothing", "leave the line out");
      }
      jitters.add(jitterUs);
    }
    if (open != null) {
      controls.add(control(open, age, grading, jitters));
    }
    return controls;
  }

  private static TableFault twice(WrittenTable table, int i, Series series, String how) {
    return table.fault(
        i,
        "subject",
        "each subject once, its lines together",
        series.subject() + " " + how,
        "keep one examination of the subject");
  }

  private static Control control(
      Series of, @Nullable Double age, String grading, List<Double> jitters) {
    return new Control(
        of.subject(), age, of.muscle(), of.needle(), of.activation(), grading, jitters);
  }

  private static Series series(WrittenTable table, int i, MuscleNames muscles) throws TableFault {
    String muscle = table.required(i, "muscle");
    String activation = table.required(i, "activation").toUpperCase(Locale.ROOT);
    if (!activation.equals("VOLUNTARY") && !activation.equals("STIMULATED")) {
      throw table.fault(i, "activation", "voluntary or stimulated", activation, "correct the word");
    }
    return new Series(
        table.required(i, "subject"),
        muscles
            .findKey(muscle)
            .orElseThrow(
                () ->
                    table.fault(
                        i,
                        "muscle",
                        "a muscle of the table of muscles",
                        muscle,
                        "give one of " + String.join(", ", muscles.listKeys()))),
        table.required(i, "needle"),
        Activation.valueOf(activation));
  }
}
