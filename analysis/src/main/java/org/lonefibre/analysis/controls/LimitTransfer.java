package org.lonefibre.analysis.controls;

import java.util.ArrayList;
import java.util.List;

/**
 * Whether a laboratory's own controls bear out a limit of others (CLSI EP28, verification with 20).
 *
 * <ul>
 *   <li>Of 20 controls at most 2 beyond: borne out. 3 or 4: 20 more. 5 or more: not borne out.
 *   <li>Were the limit the 97.5th percentile of the laboratory's own subjects, 3 or more of 20
 *       would lie beyond in 1.3 % (binomial).
 *   <li>Fewer than 20: nothing is said. More than 20: the first 20 of the file, as they were
 *       collected.
 * </ul>
 */
public final class LimitTransfer {

  private static final int WANTED = 20;
  private static final int ALLOWED = 2;
  private static final int MORE = 4;

  /** What the controls say of a limit. */
  public enum Outcome {
    /** At most 2 of 20 lie beyond it. */
    BORNE_OUT,
    /** 3 or 4 of 20: collect 20 more. */
    REPEAT,
    /** 5 of 20 or more. */
    NOT_BORNE_OUT,
    /** Fewer than 20 controls. */
    TOO_FEW
  }

  /**
   * One limit and what the controls say.
   *
   * @param what {@code mean}, {@code median} or {@code single signal}
   * @param limitUs the limit
   * @param controls controls asked
   * @param beyond those beyond it
   */
  public record Verification(
      String what, double limitUs, int controls, int beyond, Outcome outcome) {}

  private LimitTransfer() {}

  /** Asks the controls about a limit of the mean (or median) and of a single signal. */
  public static List<Verification> verify(
      List<Control> controls, String centre, double centreUs, double individualUs) {
    List<Verification> answers = new ArrayList<>();
    List<Control> asked = controls.subList(0, Math.min(WANTED, controls.size()));
    answers.add(
        verification(
            centre,
            centreUs,
            asked.stream()
                .mapToDouble(c -> centre.equals("median") ? c.medianUs() : c.meanUs())
                .toArray()));
    answers.add(
        verification(
            "single signal",
            individualUs,
            asked.stream().mapToDouble(Control::rankedUs).toArray()));
    return answers;
  }

  private static Verification verification(String what, double limitUs, double[] values) {
    int beyond = 0;
    for (double value : values) {
      beyond += value > limitUs ? 1 : 0;
    }
    Outcome outcome =
        values.length < WANTED
            ? Outcome.TOO_FEW
            : beyond <= ALLOWED
                ? Outcome.BORNE_OUT
                : beyond <= MORE ? Outcome.REPEAT : Outcome.NOT_BORNE_OUT;
    return new Verification(what, limitUs, values.length, beyond, outcome);
  }
}
