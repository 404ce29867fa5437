package org.lonefibre.app.copy;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.recording.ReadingOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.formats.reader.HeaderField;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.formats.writer.Anonymous;
import org.lonefibre.formats.writer.EdfIdentity;
import org.lonefibre.formats.writer.LosslessCopy;
import org.lonefibre.signal.recording.Recording;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Copies a recording to EDF+ or BDF+, with or without what identifies. */
@Command(
    name = "copy",
    description = {
      "Copies a recording to EDF+ without changing a sample: to BDF+ where samples have up to 24"
          + " bits; what would have to be rounded is refused.",
      "The copy is read again and compared with its source before it gets its name."
    })
@SuppressWarnings("NullAway.Init")
public final class CopyCommand implements Callable<Integer> {

  /** Far enough that the day cannot be told, near enough for dates to stay plausible. */
  private static final int LEAST_SHIFT_DAYS = 366;

  private static final int MOST_SHIFT_DAYS = 3650;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "Recording of any format that is read.")
  private Path file;

  @Option(names = "--out", required = true, paramLabel = "F.edf", description = "File to write.")
  private Path out;

  @Option(
      names = "--anonymous",
      description =
          "Leave out what identifies: patient, recording, equipment, labels and annotations in free"
              + " text; move the date. Shows every field before and after.")
  private boolean anonymous;

  @Option(
      names = "--shift-days",
      paramLabel = "DAYS",
      description =
          "With --anonymous, move the date by so many days (else by a number drawn by lot and"
              + " printed). The same number for all files of a person keeps the time between them.")
  private @Nullable Integer shiftDays;

  @Option(names = "--replace", description = "Replace a file of that name.")
  private boolean replace;

  @Mixin private ReadingOptions reading;

  @Override
  public Integer call() throws IOException {
    if (shiftDays != null && !anonymous) {
      throw new InputFault(
          "--shift-days", "", "--anonymous beside it", "no --anonymous", "add or remove one");
    }
    refuseTarget();
    try (Recording recording = reading.door().open(file)) {
      Anonymous cleaned = anonymous ? Anonymous.of(recording, shift(recording)) : null;
      Recording source = cleaned == null ? recording : cleaned.recording();
      EdfIdentity identity =
          cleaned == null ? LosslessCopy.identity(recording) : cleaned.identity();
      LosslessCopy.Copied copied =
          LosslessCopy.write(
              source,
              identity,
              out,
              replace ? LosslessCopy.Existing.REPLACE : LosslessCopy.Existing.KEEP);
      List<HeaderField> before =
          recording instanceof StoredForm stored ? stored.listHeaderFields() : List.of();
      PrintWriter text = spec.commandLine().getOut();
      for (String line :
          new CopyText(String.valueOf(out.getFileName()), recording, before, copied)
              .lines(cleaned, shiftDays)) {
        text.println(FaultLine.oneLine(line));
      }
      text.flush();
      return ExitCode.DONE.number();
    } catch (FileAlreadyExistsException e) {
      throw exists();
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          String.valueOf(file.getFileName()),
          "copy",
          "a recording that EDF+ or BDF+ holds without a change",
          String.valueOf(e.getMessage()),
          "keep the file as it is; analyse reads it directly");
    }
  }

  private long shift(Recording recording) {
    Integer told = shiftDays;
    if (told == null) {
      SecureRandom lot = new SecureRandom();
      int days = LEAST_SHIFT_DAYS + lot.nextInt(MOST_SHIFT_DAYS - LEAST_SHIFT_DAYS);
      boolean early = recording.findStart().map(start -> start.getYear() < 1996).orElse(false);
      told = early ? days : -days;
      shiftDays = told;
    }
    return told;
  }

  private void refuseTarget() throws IOException {
    if (Files.exists(out)) {
      if (Files.isDirectory(out)) {
        throw new InputFault("--out", "", "a file", "the folder " + out, "name a file in it");
      }
      if (Files.exists(file) && Files.isSameFile(file, out)) {
        throw new InputFault(
            "--out", "", "another file than the source", out.toString(), "give another name");
      }
      if (!replace) {
        throw exists();
      }
    }
    Path folder = out.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw new InputFault(
          "--out", "", "a name in a folder that exists", out.toString(), "make the folder first");
    }
  }

  private InputFault exists() {
    return new InputFault(
        "--out", "", "a new name", out + ", which exists", "add --replace to replace it");
  }
}
