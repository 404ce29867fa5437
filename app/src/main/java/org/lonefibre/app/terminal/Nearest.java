package org.lonefibre.app.terminal;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the known word that an unknown one was probably meant to be. */
public final class Nearest {

  private Nearest() {}

  /**
   * The known word with the fewest changed letters, if they are few: at most two, or a third of the
   * word. Case does not matter.
   */
  public static Optional<String> find(String word, Collection<String> known) {
    String folded = word.toLowerCase(Locale.ROOT);
    String best = null;
    int fewest = Math.max(2, word.length() / 3) + 1;
    for (String candidate : known) {
      int changes = changes(folded, candidate.toLowerCase(Locale.ROOT));
      if (changes < fewest) {
        fewest = changes;
        best = candidate;
      }
    }
    return Optional.ofNullable(best);
  }

  /** Advice to end a fault with: the nearest word, or all of them. */
  public static String advice(String word, Collection<String> known) {
    return find(word, known)
        .map(near -> "perhaps " + near + " is meant")
        .orElse("give one of " + String.join(", ", known));
  }

  /** Letters to insert, delete or change (Levenshtein 1966). */
  private static int changes(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int changed = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(changed, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
