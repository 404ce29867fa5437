package org.lonefibre.report.document;

import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

/** The only place where a code becomes a word. Facts in the trade's terms, never a diagnosis. */
public final class Words {

  /** What stands for a circumstance that nobody declared. */
  public static final String NOT_RECORDED = "not recorded";

  private static final Map<String, String> NEEDLES =
      Map.of(
          "single-fibre", "single-fibre electrode",
          "concentric-small", "concentric needle, small",
          "concentric-standard", "concentric needle, standard",
          "monopolar", "monopolar needle");

  private static final Pattern MICRO = Pattern.compile("(?<=\\d )u(?=[smV]\\b)");

  private Words() {}

  /** A finding's code in words. */
  public static String finding(FindingCode code) {
    return switch (code) {
      case TWO_CLUSTERS -> "two clusters of intervals";
      case RATE_DEPENDENCE -> "interval depends on rate";
      case LONG_INTERVAL -> "interval over 4 ms";
      case SHORT_INTERVAL -> "interval under 150 µs";
      case NO_BASELINE_RETURN -> "no return to the baseline between the potentials";
      case COMPOSITE -> "composite potential";
      case TRIGGER_ABNORMAL -> "jitter of the trigger's own end-plate";
      case SHAPE_VARIANCE -> "shape varies more than noise explains";
      case NEAR_FLOOR -> "jitter near its timing floor";
      case SHARED_TRIGGER -> "pairs share a trigger";
      case NO_LIMITS -> "no limit set fits";
      case SEVERAL_LIMITS -> "several limit sets fit";
      case LIMITS_FROM_MEMORY -> "limit set from memory is off";
      case NEEDLE_SIZE_NOT_STATED -> "needle size not stated by the limit set";
      case FILTER_DIFFERS -> "filter differs from that of the limit set";
      case MEAN_IS_LOWER_BOUND -> "mean is a lower bound";
      default -> code.code().replace('-', ' ');
    };
  }

  /** What a severity means to the reader. */
  public static String severity(Severity severity) {
    return switch (severity) {
      case NOTE -> "note";
      case CAUTION -> "caution";
      case EXCLUSION -> "left out";
    };
  }

  /** A grade in words. */
  public static String grade(Grade grade) {
    return switch (grade) {
      case SINGLE_FIBRE -> "one fibre";
      case DOUBTFUL -> "doubtful";
      case COMPOSITE -> "composite";
      case UNGRADED -> "not graded";
    };
  }

  /** A status in words. */
  public static String status(PairStatus status) {
    return switch (status) {
      case MEASURED -> "in the statistics";
      case EXCLUDED -> "left out";
      case UNMEASURABLE -> "unmeasurable";
    };
  }

  /** The state of a sweep in words. */
  public static String state(SweepState state) {
    return KebabEnums.word(state).replace('-', ' ');
  }

  /** The activation in words. */
  public static String activation(Activation activation) {
    return KebabEnums.word(activation);
  }

  /** A needle key in words; the name of a needle file as it is. */
  public static String needle(@Nullable String needle) {
    return needle == null ? NOT_RECORDED : NEEDLES.getOrDefault(needle, needle);
  }

  /** A muscle as declared. */
  public static String muscle(@Nullable String muscle) {
    return muscle == null ? "muscle not recorded" : muscle;
  }

  /** A side in words. */
  public static String side(@Nullable Side side) {
    return side == null ? "side not recorded" : KebabEnums.word(side);
  }

  /** Free text as declared, or that nothing was. */
  public static String declared(@Nullable String text) {
    return text == null || text.isBlank() ? NOT_RECORDED : text;
  }

  /** A count with its noun, for example {@code 1 signal}, {@code 2 signals}. */
  public static String count(int number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /** A sentence with a capital at its start. */
  public static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** Text of other modules as it is printed: the micro sign where they write the letter u. */
  public static String typeset(String text) {
    return MICRO.matcher(text).replaceAll("µ");
  }
}
