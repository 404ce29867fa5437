package org.lonefibre.formats.reader;

import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Which of the arrays of a file is the signal.
 *
 * <ul>
 *   <li>The only one that could be needs no name. Of several one must be named: none is guessed.
 *   <li>Thread rule: safe, keeps nothing.
 * </ul>
 */
public final class Variables {

  private static final int MOST_LISTED = 40;

  /**
   * An array that could be a signal.
   *
   * @param name its name, or its path within the file
   * @param description its size and kind, as people write them
   */
  public record Candidate(String name, String description) {}

  private Variables() {}

  /**
   * The name of the signal.
   *
   * @param wanted name a person gave; null if none
   * @param aside what else stands in the file and may help, as text; empty if nothing
   * @throws RecordingFormatException if none could be a signal, several could and none is named, or
   *     the name is not there; the message lists what is there
   */
  public static String choose(
      String file, List<Candidate> candidates, @Nullable String wanted, String aside)
      throws RecordingFormatException {
    if (candidates.isEmpty()) {
      throw new RecordingFormatException(
          file, "variables", "an array of numbers", "none", "check which file is meant");
    }
    String list =
        candidates.stream()
                .limit(MOST_LISTED)
                .map(c -> c.name() + " (" + c.description() + ")")
                .collect(Collectors.joining("; "))
            + (candidates.size() > MOST_LISTED
                ? "; and " + (candidates.size() - MOST_LISTED) + " more"
                : "")
            + (aside.isEmpty() ? "" : "; single numbers: " + aside);
    if (wanted != null) {
      if (candidates.stream().noneMatch(c -> c.name().equals(wanted))) {
        throw new RecordingFormatException(
            file,
            "variables",
            "the variable " + wanted,
            "no array of numbers of that name",
            "give --variable as one of " + list);
      }
      return wanted;
    }
    if (candidates.size() > 1) {
      throw new RecordingFormatException(
          file,
          "variables",
          "one signal to be named",
          candidates.size() + " arrays and no name",
          "give --variable as one of " + list);
    }
    return candidates.get(0).name();
  }

  /**
   * Refuses a file whose rate is not told.
   *
   * @param aside what stands in the file and may help; empty if nothing
   */
  public static double rateHz(String file, @Nullable Double told, String aside)
      throws RecordingFormatException {
    if (told == null) {
      throw new RecordingFormatException(
          file,
          "sampling rate",
          "a rate",
          aside.isEmpty() ? "none" : "none that is declared as such (" + aside + ")",
          "give it with --sampling-rate-hz");
    }
    return told;
  }
}
