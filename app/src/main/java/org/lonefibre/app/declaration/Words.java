package org.lonefibre.app.declaration;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitFile;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.MuscleNames;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Nearest;

/** The words a declaration may use, checked at one place for files and options. */
public final class Words {

  /** Keys of the needles whose settings are known. */
  public static final List<String> NEEDLES =
      List.of("single-fibre", "concentric-small", "concentric-standard", "monopolar");

  private static final int LONGEST_CODE = 64;

  /** Makes the fault of a word at its place. */
  @FunctionalInterface
  public interface Place {

    /** A fault here. */
    InputFault fault(String expected, String found, String remedy);
  }

  private Words() {}

  /** The key of a muscle. */
  public static String muscle(String text, Place place) throws InputFault {
    MuscleNames names = MuscleNames.load();
    return names
        .findKey(text)
        .orElseThrow(
            () ->
                place.fault(
                    "a muscle of the table of muscles",
                    text,
                    Nearest.advice(text, names.listKeys()) + "; or leave the muscle out"));
  }

  /** A needle key, or the name of the laboratory's own needle, whose file must exist. */
  public static String needle(String text, Path folder, Place place) throws InputFault {
    String folded = text.strip().toLowerCase(Locale.ROOT);
    if (NEEDLES.contains(folded)) {
      return folded;
    }
    Path file = folder.resolve(text);
    if (Files.isRegularFile(file)) {
      return String.valueOf(file.getFileName()).replaceFirst("\\.[A-Za-z]{3,4}$", "");
    }
    throw place.fault(
        "one of " + String.join(", ", NEEDLES) + ", or a needle file",
        text,
        Nearest.find(text, NEEDLES)
            .map(near -> "perhaps " + near + " is meant")
            .orElse("check the word, or the name of the file"));
  }

  /** The identity of a limit set: a published one, or what may be one of the laboratory's own. */
  public static String limits(String text, Place place) throws InputFault {
    List<String> sets = LimitCatalogue.load(LimitSettings.defaults()).listSets();
    if (sets.contains(text) || text.startsWith(LimitFile.PREFIX)) {
      return text;
    }
    throw place.fault("a limit set", text, Nearest.advice(text, sets));
  }

  /** A code for a person, which must not look like a name. */
  public static String subjectCode(String text, Place place) throws InputFault {
    boolean isCode = text.matches("[\\p{L}\\p{N}._#/+:-]+") && text.length() <= LONGEST_CODE;
    boolean looksLikeName = text.matches("\\p{Lu}\\p{Ll}+(-\\p{Lu}\\p{Ll}+)?");
    if (isCode && !looksLikeName) {
      return text;
    }
    throw place.fault(
        "a code of at most " + LONGEST_CODE + " letters, digits and hyphens, never a name",
        looksLikeName ? "what looks like a name" : text,
        "give the laboratory's code, such as L-0172");
  }

  /** A side of the body. */
  public static Side side(String text, Place place) throws InputFault {
    return constant(Side.values(), text, place);
  }

  /** How the muscle was made to contract. */
  public static Activation activation(String text, Place place) throws InputFault {
    return constant(Activation.values(), text, place);
  }

  private static <E extends Enum<E>> E constant(E[] values, String text, Place place)
      throws InputFault {
    List<String> known = new ArrayList<>();
    for (E value : values) {
      String word = value.name().toLowerCase(Locale.ROOT);
      if (word.equals(text.strip().toLowerCase(Locale.ROOT))) {
        return value;
      }
      known.add(word);
    }
    throw place.fault("one of " + String.join(", ", known), text, Nearest.advice(text, known));
  }
}
