package org.lonefibre.app.copy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.HeaderField;
import org.lonefibre.formats.writer.Anonymous;
import org.lonefibre.formats.writer.CopyProof;
import org.lonefibre.formats.writer.LosslessCopy;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/** What a copy says of itself, in lines. */
final class CopyText {

  /** Shorter words of a patient's field are too common to be looked for. */
  private static final int SHORTEST_WORD = 4;

  /** What the last bits of a double come to, in steps of 24 bits and more. */
  private static final double ROUNDING_STEPS = 1e-6;

  private final String name;
  private final Recording source;
  private final List<HeaderField> before;
  private final LosslessCopy.Copied copied;
  private final List<String> lines = new ArrayList<>();

  CopyText(String name, Recording source, List<HeaderField> before, LosslessCopy.Copied copied) {
    this.name = name;
    this.source = source;
    this.before = before;
    this.copied = copied;
  }

  /**
   * The lines.
   *
   * @param cleaned null if nothing was left out
   * @param shiftDays by how many days the start was moved
   */
  List<String> lines(@Nullable Anonymous cleaned, @Nullable Integer shiftDays) {
    proof();
    if (cleaned != null) {
      fields();
      annotations(cleaned);
      if (source.findStart().isPresent()) {
        add(
            "the date was moved by %d days; use --shift-days %d for other files of this person, and"
                + " keep the number to yourself",
            shiftDays, shiftDays);
      }
      nameOfFile();
    }
    return lines;
  }

  private void add(String pattern, @Nullable Object... values) {
    lines.add(String.format(Locale.ROOT, pattern, values));
  }

  private void proof() {
    CopyProof proof = copied.proof();
    add(
        "%s: %s, %d samples of %s written and read again",
        name, copied.format(), proof.samples(), counted(source.channels().size(), "signal"));
    if (proof.differing() == 0) {
      add("every sample is the same to the last bit");
    } else if (proof.largestDifference() < ROUNDING_STEPS) {
      add("every sample is the same, but for the rounding of a 64-bit number");
    } else {
      add(
          "every sample has the same number of the converter; the eight characters in which EDF"
              + " states a range change amplitudes by at most %.2g steps",
          proof.largestDifference());
    }
    if (proof.heldSamples() > 0) {
      add(
          "%d samples were added: the last one, held to the end of its record",
          proof.heldSamples());
    }
  }

  private static String counted(long count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }

  /** Each field as it was and as it is now, with its bytes in the copy. */
  private void fields() {
    Map<String, HeaderField> old = new LinkedHashMap<>();
    for (HeaderField field : before) {
      old.put(key(field.name(), place(field.signal())), field);
    }
    add(before.isEmpty() ? "the header written:" : "the header, before and after:");
    for (HeaderField field : copied.headerFields()) {
      HeaderField was = old.remove(key(field.name(), field.signal()));
      if (was == null && field.text().isEmpty()) {
        continue;
      }
      add(
          "  bytes %d to %d, %s: %s\"%s\"%s",
          field.from(),
          field.to(),
          title(field.name(), field.signal()),
          was == null ? "" : "\"" + was.text() + "\" -> ",
          field.text(),
          was != null && was.text().equals(field.text()) ? " (kept)" : "");
    }
    for (HeaderField gone : old.values()) {
      if (!gone.text().isEmpty()) {
        add(
            "  %s of the source, bytes %d to %d: \"%s\" -> left out",
            title(gone.name(), gone.signal()), gone.from(), gone.to(), gone.text());
      }
    }
  }

  /** Place in the copy of a signal of the source; its negative number if it is not copied. */
  private int place(int signal) {
    List<Channel> channels = source.channels();
    for (int c = 0; c < channels.size(); c++) {
      if (channels.get(c).number() == signal) {
        return c + 1;
      }
    }
    return -signal;
  }

  private static String key(String name, int signal) {
    return signal + " " + name;
  }

  private static String title(String name, int signal) {
    return signal == 0 ? name : name + " of signal " + Math.abs(signal);
  }

  private void annotations(Anonymous cleaned) {
    cleaned.renamedSites().forEach((old, renamed) -> add("site \"%s\" -> \"%s\"", old, renamed));
    add("%s in free text left out", counted(cleaned.dropped().size(), "annotation"));
    for (Annotation annotation : cleaned.dropped()) {
      add("  %.3f s \"%s\"", annotation.startS(), annotation.text());
    }
  }

  private void nameOfFile() {
    String folded = name.toLowerCase(Locale.ROOT);
    for (HeaderField field : before) {
      if (!field.name().equals("patient")) {
        continue;
      }
      for (String word : field.text().toLowerCase(Locale.ROOT).split("[^\\p{L}\\p{N}]+")) {
        if (word.length() >= SHORTEST_WORD && folded.contains(word)) {
          add("the name of the file holds \"%s\" of the patient's field: rename it", word);
        }
      }
    }
  }
}
