package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.StudySignal.Acceptance;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.Visit;

/**
 * Two examinations of one subject, study by study.
 *
 * <ul>
 *   <li>Subject, muscle, side, needle, activation and settings must match; else it is refused.
 *   <li>Change of the mean jitter with its 95 % interval by Welch's t over the signals: other
 *       end-plates are met each time, so signals are not paired.
 *   <li>Change of the share of signals with blocking, with Newcombe's interval (1998, method 10).
 *   <li>Fewer than two signals with a number on a side: no interval.
 * </ul>
 *
 * @param study what was examined
 * @param before first examination
 * @param after second examination
 * @param jitterChangeUs mean after minus mean before; null without numbers
 * @param jitterChangeLowUs lower end of its 95 % interval; null without one
 * @param jitterChangeHighUs upper end
 * @param blockingChangePercent share of signals with blocking, after minus before; null without
 *     signals
 * @param blockingChangeLowPercent lower end of its 95 % interval
 * @param blockingChangeHighPercent upper end
 */
public record BeforeAfter(
    String study,
    Side before,
    Side after,
    @Nullable Double jitterChangeUs,
    @Nullable Double jitterChangeLowUs,
    @Nullable Double jitterChangeHighUs,
    @Nullable Double blockingChangePercent,
    @Nullable Double blockingChangeLowPercent,
    @Nullable Double blockingChangeHighPercent) {

  private static final double Z = 1.959963984540054;

  /**
   * One of the two.
   *
   * @param visit its circumstances
   * @param signals signals in the statistics
   * @param meanJitterUs their mean jitter; null without numbers
   * @param signalsWithBlocking signals with blocking
   */
  public record Side(
      Visit visit, int signals, @Nullable Double meanJitterUs, int signalsWithBlocking) {}

  /**
   * Compares two examinations.
   *
   * @return an entry a study that both have
   * @throws IllegalArgumentException if subject or settings differ, or no study matches; the
   *     message says what was expected and found
   */
  public static List<BeforeAfter> of(Examination before, Examination after) {
    String code = before.subject().code();
    if (code == null || !code.equals(after.subject().code())) {
      throw new IllegalArgumentException(
          "one subject code in both, found " + code + " and " + after.subject().code());
    }
    if (!before.settings().hash().equals(after.settings().hash())) {
      throw new IllegalArgumentException("the same settings in both, found others");
    }
    List<BeforeAfter> changes = new ArrayList<>();
    for (Study first : before.studies()) {
      for (Study second : after.studies()) {
        if (matches(first, second)) {
          changes.add(change(before, first, after, second));
        }
      }
    }
    if (changes.isEmpty()) {
      throw new IllegalArgumentException(
          "a study of the same muscle, side, needle and activation in both, found none");
    }
    return changes;
  }

  private static boolean matches(Study a, Study b) {
    return a.muscle() != null
        && a.needle() != null
        && a.muscle().equals(b.muscle())
        && a.needle().equals(b.needle())
        && a.side() == b.side()
        && a.activation() == b.activation();
  }

  private static BeforeAfter change(Examination before, Study a, Examination after, Study b) {
    StudyTally first = tally(a);
    StudyTally second = tally(b);
    Double from = first.meanUs();
    Double to = second.meanUs();
    double[] own = first.valuesUs();
    double[] other = second.valuesUs();
    Double low = null;
    Double high = null;
    if (from != null && to != null && own.length > 1 && other.length > 1) {
      double u = variance(own) / own.length;
      double v = variance(other) / other.length;
      double half = 0;
      if (u + v > 0) {
        double freedom =
            (u + v) * (u + v) / (u * u / (own.length - 1) + v * v / (other.length - 1));
        half = new TDistribution(freedom).inverseCumulativeProbability(0.975) * Math.sqrt(u + v);
      }
      low = to - from - half;
      high = to - from + half;
    }
    int n = first.signals().size();
    int m = second.signals().size();
    double[] blocking = newcombe(first.blocking(), n, second.blocking(), m);
    boolean counted = n > 0 && m > 0;
    return new BeforeAfter(
        String.join(
            ", ",
            String.valueOf(a.muscle()),
            a.side() == null
                ? "side not given"
                : a.side().name().toLowerCase(java.util.Locale.ROOT),
            a.needle() + " needle",
            LimitFindings.words(a.activation())),
        new Side(before.visit(), n, from, first.blocking()),
        new Side(after.visit(), m, to, second.blocking()),
        from == null || to == null ? null : to - from,
        low,
        high,
        counted ? blocking[0] : null,
        counted ? blocking[1] : null,
        counted ? blocking[2] : null);
  }

  private static StudyTally tally(Study study) {
    return new StudyTally(
        StudySignal.of(study.recordings()), Acceptance.FULL_GRADE, null, StudySettings.defaults());
  }

  private static double variance(double[] values) {
    double mean = java.util.Arrays.stream(values).average().orElseThrow();
    double sum = 0;
    for (double value : values) {
      sum += (value - mean) * (value - mean);
    }
    return sum / (values.length - 1);
  }

  /** Difference of two shares with its interval, in percent. */
  static double[] newcombe(int a, int n, int b, int m) {
    if (n == 0 || m == 0) {
      return new double[3];
    }
    double p = (double) a / n;
    double q = (double) b / m;
    double[] first = wilson(p, n);
    double[] second = wilson(q, m);
    double d = q - p;
    return new double[] {
      100 * d,
      100 * (d - Math.hypot(q - second[0], first[1] - p)),
      100 * (d + Math.hypot(second[1] - q, p - first[0]))
    };
  }

  private static double[] wilson(double p, int n) {
    double centre = p + Z * Z / (2 * n);
    double half = Z * Math.sqrt(p * (1 - p) / n + Z * Z / (4.0 * n * n));
    double scale = 1 + Z * Z / n;
    return new double[] {(centre - half) / scale, (centre + half) / scale};
  }
}
