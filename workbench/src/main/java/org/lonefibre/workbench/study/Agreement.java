package org.lonefibre.workbench.study;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How far two readers agree beyond chance: Cohen's kappa, {@code (po - pe) / (1 - pe)}, with its
 * large-sample 95 % interval from the error {@code sqrt(po (1 - po) / n) / (1 - pe)}.
 *
 * <ul>
 *   <li>Nothing compared, or both readers give one and the same answer throughout: no kappa.
 *   <li>Source: Cohen 1960 (from memory).
 * </ul>
 *
 * @param compared number of things both judged
 * @param agreed number judged alike
 * @param kappa null if it is not defined
 * @param kappaLow lower end of the interval, -1 or more
 * @param kappaHigh upper end, at most 1
 */
record Agreement(
    int compared,
    int agreed,
    @Nullable Double kappa,
    @Nullable Double kappaLow,
    @Nullable Double kappaHigh) {

  private static final double WIDE = 1.96;

  /** What two readers said of one thing. */
  record Answers(String first, String second) {}

  static Agreement of(List<Answers> answers) {
    int n = answers.size();
    int agreed = (int) answers.stream().filter(a -> a.first().equals(a.second())).count();
    if (n == 0) {
      return new Agreement(0, 0, null, null, null);
    }
    double chance = 0;
    for (String word : answers.stream().map(Answers::first).distinct().toList()) {
      double first = answers.stream().filter(a -> a.first().equals(word)).count();
      double second = answers.stream().filter(a -> a.second().equals(word)).count();
      chance += first * second / n / n;
    }
    if (chance >= 1) {
      return new Agreement(n, agreed, null, null, null);
    }
    double share = (double) agreed / n;
    double kappa = (share - chance) / (1 - chance);
    double error = Math.sqrt(share * (1 - share) / n) / (1 - chance);
    return new Agreement(
        n, agreed, kappa, Math.max(-1, kappa - WIDE * error), Math.min(1, kappa + WIDE * error));
  }
}
