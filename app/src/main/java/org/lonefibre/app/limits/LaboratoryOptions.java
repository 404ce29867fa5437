package org.lonefibre.app.limits;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LaboratoryLimits;
import org.lonefibre.analysis.reference.LimitConfirmation;
import org.lonefibre.analysis.reference.LimitFile;
import org.lonefibre.analysis.reference.MuscleNames;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.store.Store;
import picocli.CommandLine.Option;

/** The options that bring a laboratory's own limits and confirmations into an analysis. */
public final class LaboratoryOptions {

  @Option(
      names = "--limits-file",
      paramLabel = "FILE.csv",
      description = "Limit sets of the laboratory; may be given several times.")
  private List<Path> files = List.of();

  @Option(
      names = "--confirm-limits",
      paramLabel = "SET[/MUSCLE]=READ",
      description = {
        "Turn on rows from memory that were read in print, and say what was read, as"
            + " \"sf-voluntary-1992/deltoid=reprint, table 2\"; it is printed with the result."
      })
  private List<String> confirmed = List.of();

  @Option(
      names = "--laboratory",
      description =
          "Use the limits, confirmations and choices kept in the store (with --keep they are used in"
              + " any case).")
  private boolean kept;

  /**
   * What the laboratory adds.
   *
   * @param keeps whether the study is kept, so that the store is used
   * @throws IOException if a file or the store cannot be used
   */
  public LaboratoryLimits limits(boolean keeps, DataOptions data) throws IOException {
    List<LimitFile> own = new ArrayList<>();
    for (Path file : files) {
      own.add(LimitFile.read(file));
    }
    LaboratoryLimits stored = LaboratoryLimits.NONE;
    if (kept || keeps) {
      try (Store store = data.open()) {
        stored = store.limits().laboratory();
      }
    }
    own.addAll(stored.files());
    List<LimitConfirmation> confirmations = new ArrayList<>(stored.confirmations());
    for (String text : confirmed) {
      confirmations.add(confirmation(text));
    }
    return new LaboratoryLimits(own, confirmations, stored.choices());
  }

  private static LimitConfirmation confirmation(String text) throws InputFault {
    int equals = text.indexOf('=');
    if (equals < 1 || text.substring(equals + 1).isBlank()) {
      throw new InputFault(
          "--confirm-limits",
          "",
          "SET=READ or SET/MUSCLE=READ",
          text,
          "say after the equals sign what was read: edition, page, table");
    }
    String[] name = text.substring(0, equals).split("/", 2);
    String muscle = name.length == 1 ? null : muscle(name[1]);
    return new LimitConfirmation(
        name[0],
        muscle,
        System.getProperty("user.name"),
        LocalDate.now(ZoneOffset.UTC).toString(),
        text.substring(equals + 1).strip(),
        null);
  }

  /** The key of a muscle. */
  static String muscle(String text) throws InputFault {
    return org.lonefibre.app.declaration.Words.muscle(
        text, (expected, found, remedy) -> new InputFault("muscle", "", expected, found, remedy));
  }

  /** Key of a muscle; null for none. */
  static @Nullable String findMuscle(@Nullable String text) throws InputFault {
    return text == null ? null : MuscleNames.load().findKey(text).orElse(muscle(text));
  }
}
