package org.lonefibre.workbench.study;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Language;
import org.lonefibre.store.studies.SignedVersion;
import org.lonefibre.workbench.server.Refusal;

/** A study as files: the result in force, with the physician's words and signature. */
public final class Exports {

  /**
   * A file to be handed over. The bytes are nobody else's.
   *
   * @param fileName its name
   * @param type its media type
   * @param bytes its content
   */
  public record Document(String fileName, String type, byte[] bytes) {}

  private Exports() {}

  /**
   * One export.
   *
   * @param format one of the files of {@link ReportFormat}, or {@code signed.json} of a signed
   *     study
   * @param notes what the physician wrote
   * @throws Refusal if there is no such export, nothing to export yet, or grades are hidden
   */
  public static Document of(
      String format, OpenStudy study, Map<String, String> notes, List<SignedVersion> versions)
      throws IOException {
    study.requireGrades();
    Examination result = study.current();
    if (result == null) {
      throw new Refusal(409, "There is no result yet: import recordings first.");
    }
    if (format.equals("signed.json")) {
      if (versions.isEmpty()) {
        throw new Refusal(409, "The study is not signed.");
      }
      return new Document(
          format,
          "application/json",
          versions.get(versions.size() - 1).content().getBytes(StandardCharsets.UTF_8));
    }
    ReportFormat kind =
        ReportFormat.findByFile(format)
            .orElseThrow(() -> new Refusal(404, "There is no such export."));
    byte[] bytes =
        new ReportWriter()
            .contents(result, closing(study, notes, versions), Language.ENGLISH, EnumSet.of(kind))
            .get(format);
    return new Document(format, kind.mediaType(), Objects.requireNonNull(bytes));
  }

  /** What people added to a study. */
  public static Closing closing(
      OpenStudy study, Map<String, String> notes, List<SignedVersion> versions) {
    return new Closing(
        study.kept().title(),
        state(study),
        study.activeSteps().isEmpty() ? null : decisions(study),
        words(notes.get("comment")),
        words(notes.get("conclusion")),
        versions.isEmpty() ? null : seal(versions.get(versions.size() - 1), study.kept().state()));
  }

  private static Closing.Seal seal(SignedVersion last, String state) {
    return new Closing.Seal(
        last.version(),
        !state.equals("signed"),
        last.signer(),
        last.signedAt(),
        last.meaning(),
        last.sha256(),
        last.seal());
  }

  private static Closing.State state(OpenStudy study) {
    return switch (study.kept().state()) {
      case "signed" -> Closing.State.SIGNED;
      case "amended" -> Closing.State.AMENDED;
      default -> Closing.State.OPEN;
    };
  }

  private static String decisions(OpenStudy study) {
    StringBuilder all = new StringBuilder();
    study
        .activeSteps()
        .forEach(
            step ->
                all.append(all.isEmpty() ? "" : "; ")
                    .append(step.stepName())
                    .append(" (")
                    .append(step.reason())
                    .append(", ")
                    .append(step.actor())
                    .append(')'));
    return all.toString();
  }

  private static @Nullable String words(@Nullable String text) {
    return text == null || text.isBlank() ? null : text;
  }
}
