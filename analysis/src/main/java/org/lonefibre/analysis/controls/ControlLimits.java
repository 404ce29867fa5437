package org.lonefibre.analysis.controls;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToDoubleFunction;

/**
 * Limits from controls, a group a muscle, needle and activation.
 *
 * <ul>
 *   <li>One value a subject: the centre is the mean (or median) of its signals, the single-signal
 *       value its 18th of 20 or 27th of 30. Subjects are independent, signals of one are not.
 *   <li>By age where at least {@value #FEWEST_BY_AGE} subjects span {@value #LEAST_SPAN_YEARS}
 *       years or more (engineering choice), by decades, within the ages there were: no
 *       extrapolation.
 *   <li>Too few subjects for a method: its number is marked so.
 * </ul>
 */
public final class ControlLimits {

  private static final int FEWEST_BY_AGE = 40;
  private static final int LEAST_SPAN_YEARS = 20;
  private static final int DECADE_YEARS = 10;
  private static final double UPPER = 0.975;

  private ControlLimits() {}

  /**
   * The limits of each group.
   *
   * @param controls a control a subject and group
   */
  public static List<ControlGroup> of(List<Control> controls) {
    Map<String, List<Control>> groups = new LinkedHashMap<>();
    for (Control control : controls) {
      groups
          .computeIfAbsent(
              control.muscle() + "/" + control.needle() + "/" + control.activation(),
              key -> new ArrayList<>())
          .add(control);
    }
    return groups.values().stream().map(ControlLimits::group).toList();
  }

  private static ControlGroup group(List<Control> of) {
    List<OwnLimit> limits = new ArrayList<>();
    List<String> warnings = new ArrayList<>();
    if (of.size() > 2) {
      for (ControlMethod method : ControlMethod.values()) {
        limits.add(limit("mean", method, of, Control::meanUs));
        limits.add(limit("median", method, of, Control::medianUs));
        limits.add(limit("single signal", method, of, Control::rankedUs));
      }
    }
    warn(of, warnings);
    Control first = of.get(0);
    return new ControlGroup(
        first.muscle(),
        first.needle(),
        first.activation(),
        of.size(),
        limits,
        byAge(of, warnings),
        warnings);
  }

  private static OwnLimit limit(
      String what, ControlMethod method, List<Control> of, ToDoubleFunction<Control> value) {
    double[] values = of.stream().mapToDouble(value).toArray();
    Resampling.Range range = Resampling.of(values, drawn -> UpperLimit.of(method, drawn));
    return new OwnLimit(
        what,
        method,
        values.length,
        UpperLimit.of(method, values),
        range.low(),
        range.high(),
        values.length >= method.fewest() ? OwnLimit.Standing.ENOUGH : OwnLimit.Standing.TOO_FEW);
  }

  private static void warn(List<Control> of, List<String> warnings) {
    if (of.size() < ControlMethod.ROBUST.fewest()) {
      warnings.add(
          text(
              "%d subjects: too few for limits of one's own by CLSI EP28 (40 robust, 120"
                  + " nonparametric); 20 serve to verify a published limit",
              of.size()));
    } else if (of.size() < ControlMethod.NONPARAMETRIC.fewest()) {
      warnings.add(
          text(
              "%d subjects: too few for the nonparametric method (120); robust serves", of.size()));
    }
    long other =
        of.stream().filter(c -> c.jittersUs().size() != 20 && c.jittersUs().size() != 30).count();
    if (other > 0) {
      warnings.add(
          text(
              "%d subjects have neither 20 nor 30 signals; the value that nine in ten reach is"
                  + " taken, rounded down",
              other));
    }
    String grading = of.get(0).grading();
    warnings.add(
        grading.isEmpty()
            ? "signals accepted by people: the limits hold for studies accepted by the same rules"
            : "signals accepted by grading " + grading + ": the limits hold for that version");
  }

  private static List<AgeLimit> byAge(List<Control> of, List<String> warnings) {
    List<Control> aged = of.stream().filter(control -> control.ageYears() != null).toList();
    double[] ages =
        aged.stream().mapToDouble(c -> Objects.requireNonNull(c.ageYears())).sorted().toArray();
    if (aged.size() < FEWEST_BY_AGE || ages[ages.length - 1] - ages[0] < LEAST_SPAN_YEARS) {
      warnings.add(
          text(
              "no limits by age: %d subjects have one; 40 that span 20 years are needed",
              aged.size()));
      return List.of();
    }
    double[] own = aged.stream().mapToDouble(c -> Objects.requireNonNull(c.ageYears())).toArray();
    QuantileLine centre =
        QuantileLine.of(own, aged.stream().mapToDouble(Control::meanUs).toArray(), UPPER);
    QuantileLine single =
        QuantileLine.of(own, aged.stream().mapToDouble(Control::rankedUs).toArray(), UPPER);
    if (aged.size() < ControlMethod.NONPARAMETRIC.fewest()) {
      warnings.add(
          text("by age: the 97.5 %% line of %d subjects rests on the highest few", aged.size()));
    }
    List<AgeLimit> limits = new ArrayList<>();
    int youngest = (int) Math.floor(ages[0]);
    int oldest = (int) Math.floor(ages[ages.length - 1]);
    for (int decade = youngest / DECADE_YEARS; decade <= oldest / DECADE_YEARS; decade++) {
      int from = Math.max(youngest, decade * DECADE_YEARS);
      int below = Math.min(oldest + 1, (decade + 1) * DECADE_YEARS);
      double middle = (from + below) / 2.0;
      limits.add(new AgeLimit(from, below, centre.atUs(middle), single.atUs(middle)));
    }
    return limits;
  }

  static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
