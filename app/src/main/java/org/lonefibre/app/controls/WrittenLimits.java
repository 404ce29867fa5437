package org.lonefibre.app.controls;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.lonefibre.analysis.controls.Control;
import org.lonefibre.analysis.controls.ControlGroup;
import org.lonefibre.analysis.controls.ControlMethod;
import org.lonefibre.analysis.controls.OwnLimit;
import org.lonefibre.app.terminal.InputFault;

/** Limits of controls as a file of limit sets. */
final class WrittenLimits {

  private final String set;
  private final String centre;
  private final ControlMethod method;
  private final List<Control> controls;

  WrittenLimits(String set, String centre, ControlMethod method, List<Control> controls) {
    this.set = set;
    this.centre = centre;
    this.method = method;
    this.controls = controls;
  }

  String text(List<ControlGroup> groups) throws IOException {
    StringWriter text = new StringWriter();
    try (CsvWriter csv = CsvWriter.builder().build(text)) {
      csv.writeRecord(
          "set_id",
          "set_name",
          "muscle",
          "needles",
          "activation",
          "subjects_from_age_years",
          "subjects_below_age_years",
          "centre_statistic",
          "centre_limit_us",
          "individual_limit_us",
          "subjects",
          "source",
          "note");
      for (ControlGroup group : groups) {
        csv.writeRecord(cells(group));
      }
    }
    return text.toString();
  }

  private List<String> cells(ControlGroup group) throws InputFault {
    if (group.subjects() < method.fewest()) {
      throw new InputFault(
          "controls",
          group.muscle() + ", " + group.needle(),
          method.fewest() + " subjects or more for " + method.words(),
          Integer.toString(group.subjects()),
          "collect more, or verify a published limit with 20");
    }
    List<Double> ages = new ArrayList<>();
    for (Control control : controls) {
      if (control.muscle().equals(group.muscle())
          && control.needle().equals(group.needle())
          && control.activation() == group.activation()
          && control.ageYears() != null) {
        ages.add(Objects.requireNonNull(control.ageYears()));
      }
    }
    OwnLimit middle = group.limit(centre, method);
    OwnLimit single = group.limit("single signal", method);
    return List.of(
        set,
        "own controls, " + method.words(),
        group.muscle(),
        group.needle(),
        group.activation().name().toLowerCase(Locale.ROOT),
        ages.isEmpty()
            ? ""
            : Integer.toString((int) Math.floor(ages.stream().min(Double::compare).orElse(0.0))),
        ages.isEmpty()
            ? ""
            : Integer.toString(
                (int) Math.floor(ages.stream().max(Double::compare).orElse(0.0)) + 1),
        centre,
        us(middle.valueUs()),
        us(single.valueUs()),
        Integer.toString(group.subjects()),
        group.subjects() + " controls of the laboratory, " + method.words(),
        String.format(
            Locale.ROOT,
            "90 %% intervals: centre %s to %s us, single %s to %s us; %s",
            us(middle.lowUs()),
            us(middle.highUs()),
            us(single.lowUs()),
            us(single.highUs()),
            String.join("; ", group.warnings())));
  }

  private static String us(double us) {
    return String.format(Locale.ROOT, "%.1f", us);
  }
}
