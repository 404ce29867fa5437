package org.lonefibre.formats.writer;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.lonefibre.formats.edf.EdfReader;
import org.lonefibre.formats.reader.HeaderField;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.signal.recording.Recording;

/**
 * Copies a recording to EDF+ or BDF+ without changing a sample, and proves it.
 *
 * <ul>
 *   <li>Numbers of up to 16 bits become EDF+, wider ones BDF+; what fits neither is refused with
 *       the reason.
 *   <li>What is written is read again and compared before it gets its name: a file that differs
 *       never appears.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class LosslessCopy {

  /** What becomes of a file of the same name. */
  public enum Existing {
    /** It is kept, and the copy refused. */
    KEEP,
    /** It is replaced. */
    REPLACE
  }

  /**
   * A copy.
   *
   * @param format as it was written, for example {@code EDF+C}
   * @param proof how it compares with its source
   * @param headerFields the header it has now
   */
  public record Copied(String format, CopyProof proof, List<HeaderField> headerFields) {

    /** Copies the list. */
    public Copied {
      headerFields = List.copyOf(headerFields);
    }
  }

  private LosslessCopy() {}

  /**
   * The identity a recording has in its own header; {@code X} stands for what it does not tell. A
   * header without the divided fields of EDF+ keeps its text as the name and the equipment.
   */
  public static EdfIdentity identity(Recording recording) throws IOException {
    EdfIdentity unknown = EdfIdentity.of("", recording.findStart().orElse(null));
    if (!(recording instanceof StoredForm stored)) {
      return unknown;
    }
    String patient = "";
    String told = "";
    Map<Integer, String> transducers = new HashMap<>();
    for (HeaderField field : stored.listHeaderFields()) {
      switch (field.name()) {
        case "patient" -> patient = field.text();
        case "recording" -> told = field.text();
        case "transducer" -> transducers.put(field.signal(), field.text());
        default -> {
          // nothing of the identity
        }
      }
    }
    boolean divided = recording.format().contains("+");
    return new EdfIdentity(
        divided ? patient : joined("X X X", patient),
        divided ? told : joined(EdfIdentity.startdate(unknown.start()) + " X X", told),
        unknown.start(),
        transducers);
  }

  private static String joined(String before, String text) {
    return before + " " + (text.isBlank() ? "X" : text.strip().replaceAll("\\s+", "_"));
  }

  /**
   * Writes, reads again, compares, and only then gives the file its name.
   *
   * @throws IllegalArgumentException if no form holds the recording without a change; the message
   *     says why
   * @throws FileAlreadyExistsException if there is a file of that name that is to be kept
   */
  public static Copied write(
      Recording recording, EdfIdentity identity, Path file, Existing existing) throws IOException {
    if (existing == Existing.KEEP && Files.exists(file)) {
      throw new FileAlreadyExistsException(file.toString());
    }
    WholeSteps steps = WholeSteps.of(recording);
    Path part = file.resolveSibling("." + file.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      EdfPlusWriter.write(steps.recording, identity, part, steps.form);
      CopyProof proof = CopyProof.of(steps.recording, part);
      Copied copied = look(part, proof);
      if (existing == Existing.REPLACE) {
        Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
      } else {
        Files.move(part, file);
      }
      return copied;
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static Copied look(Path part, CopyProof proof) throws IOException {
    try (Recording copy = new EdfReader().open(part, ReadOptions.defaults())) {
      List<HeaderField> fields =
          copy instanceof StoredForm stored ? stored.listHeaderFields() : List.of();
      return new Copied(copy.format(), proof, fields);
    }
  }
}
