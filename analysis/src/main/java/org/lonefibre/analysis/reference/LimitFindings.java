package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitRow.NeedleSize;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The words of what is found while matching limits. */
final class LimitFindings {

  private LimitFindings() {}

  static Optional<Finding> missing(StudyDeclaration study) {
    List<String> missing = new ArrayList<>();
    if (study.muscle() == null) {
      missing.add("muscle");
    }
    if (study.ageYears() == null) {
      missing.add("age");
    }
    if (study.needle() == null) {
      missing.add("needle");
    }
    if (study.activationOrigin() == StudyDeclaration.Origin.ASSUMED) {
      missing.add("activation");
    }
    if (missing.isEmpty()) {
      return Optional.empty();
    }
    String consequence =
        study.muscle() == null || study.needle() == null
            ? "nothing is compared"
            : study.ageYears() == null
                ? "sets that depend on age are left out"
                : words(study.activation()) + " is assumed";
    return Optional.of(
        Finding.caution(
            FindingCode.MISSING_DECLARATION,
            "Not given: " + String.join(", ", missing) + "; " + consequence + ".",
            Evidence.NONE));
  }

  static void addForRow(LimitRow row, StudyDeclaration study, List<Finding> findings) {
    if (row.needleSize() == NeedleSize.NOT_STATED) {
      findings.add(
          Finding.caution(
              FindingCode.NEEDLE_SIZE_NOT_STATED,
              text(
                  "Limit set %s does not state the size of its concentric needle; it is used for %s.",
                  row.setId(), study.needle()),
              Evidence.NONE));
    }
    Double own = row.highPassHz();
    Double used = study.highPassHz();
    if (own != null && used != null && Math.abs(own - used) > 1e-6 * own) {
      findings.add(
          Finding.caution(
              FindingCode.FILTER_DIFFERS,
              text(
                  "High-pass %.0f Hz; limit set %s was collected with %.0f Hz.",
                  used, row.setId(), own),
              Evidence.of(
                  new Quantity("high-pass", used, "Hz"),
                  new Quantity("high-pass of the limit set", own, "Hz"))));
    }
  }

  static Finding ageColumns(LimitRow row, LimitRow next, double age, boolean nextIsOff) {
    String other =
        nextIsOff
            ? text("the column %d is from memory and off", next.ageColumnYears())
            : text("the column %d has %s", next.ageColumnYears(), limits(next));
    return Finding.caution(
        FindingCode.AGE_COLUMNS,
        text(
            "Age %s lies within a year of the next column of %s. Used: column %d with %s; %s. The"
                + " printed table may mean ages or decades.",
            years(age), row.setId(), row.ageColumnYears(), limits(row), other),
        Evidence.NONE);
  }

  static Finding lastColumn(LimitRow row, double age) {
    return Finding.note(
        FindingCode.AGE_COLUMNS,
        text(
            "Age %s: the last column of %s is %d, read as a decade; the printed table may mean the"
                + " age.",
            years(age), row.setId(), row.ageColumnYears()),
        Evidence.NONE);
  }

  static Finding noLimits(StudyDeclaration study, String muscle, Collection<String> otherAges) {
    String what =
        text(
            "%s, %s, needle %s%s",
            muscle,
            words(study.activation()),
            study.needle(),
            study.ageYears() == null ? "" : ", age " + years(study.ageYears()));
    String why =
        study.limitsSetId() != null
            ? text("Limit set %s does not hold for %s", study.limitsSetId(), what)
            : text("No limit set fits %s", what);
    String ages =
        otherAges.isEmpty() ? "" : text(" (no set for this age: %s)", String.join(", ", otherAges));
    return Finding.caution(
        FindingCode.NO_LIMITS, why + ages + ". Nothing is compared.", Evidence.NONE);
  }

  static Finding fromMemory(List<LimitRow> rows) {
    return Finding.note(
        FindingCode.LIMITS_FROM_MEMORY,
        text(
            "%s has a row that would fit, but it is off: from memory: read the printed source, then"
                + " confirm.",
            ids(rows)),
        Evidence.NONE);
  }

  static Finding several(List<LimitRow> rows) {
    return Finding.caution(
        FindingCode.SEVERAL_LIMITS,
        text(
            "Several limit sets fit: %s. Nothing is compared; name one.",
            rows.stream()
                .map(row -> row.setId() + " (" + limits(row) + ")")
                .collect(Collectors.joining(", "))),
        Evidence.NONE);
  }

  static Finding picked(LimitRow row, List<LimitRow> others) {
    return Finding.note(
        FindingCode.SEVERAL_LIMITS,
        text(
            "Compared with %s (%s), as picked. Also fitting, and not mixed in: %s.",
            row.setId(),
            limits(row),
            others.stream()
                .map(other -> other.setId() + " (" + limits(other) + ")")
                .collect(Collectors.joining(", "))),
        Evidence.NONE);
  }

  static String limits(LimitRow row) {
    List<String> parts = new ArrayList<>();
    if (row.centreUs() != null) {
      parts.add(
          row.centreStatistic().name().toLowerCase(Locale.ROOT)
              + " "
              + text("%.1f us", row.centreUs()));
    }
    parts.add(
        row.individualUs() == null
            ? "individual blank"
            : "individual " + text("%.1f us", row.individualUs()));
    return String.join(", ", parts);
  }

  static String words(Activation activation) {
    return activation.name().toLowerCase(Locale.ROOT);
  }

  private static String years(double age) {
    return age == Math.rint(age) ? text("%.0f", age) : text("%.1f", age);
  }

  private static String ids(List<LimitRow> rows) {
    return rows.stream().map(LimitRow::setId).distinct().collect(Collectors.joining(", "));
  }

  static String text(String format, @Nullable Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
