package org.lonefibre.app.terminal;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import org.lonefibre.analysis.reference.TableFault;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * A failure as one line for standard error, with its exit code.
 *
 * <ul>
 *   <li>What a person can mend ends with {@link ExitCode#INPUT_AT_FAULT}; a file system that will
 *       not read or write belongs there.
 *   <li>Everything else is a fault of the program, and the line says so.
 *   <li>Control characters are made visible: what came from a file cannot move the cursor.
 * </ul>
 *
 * @param text the line, without its end
 * @param exitCode how the program ends
 */
public record FaultLine(String text, ExitCode exitCode) {

  private static final int LONGEST = 1000;

  /** The line of a failure. */
  public static FaultLine of(Throwable failure) {
    if (failure instanceof InputFault
        || failure instanceof RecordingFormatException
        || failure instanceof TableFault) {
      return input(String.valueOf(failure.getMessage()));
    }
    if (failure instanceof FileSystemException file) {
      return input(file.getFile() + ": " + reason(file));
    }
    if (failure instanceof IOException) {
      return input(
          "input or output failed: " + failure.getMessage() + "; check the disk and try again");
    }
    if (failure instanceof OutOfMemoryError) {
      return new FaultLine(
          "out of memory; give more, for example with LONEFIBRE_JAVA_OPTS=-Xmx2g",
          ExitCode.OUR_FAULT);
    }
    return new FaultLine(
        oneLine(
            "a fault of Lonefibre, not of the input: "
                + failure
                + "; repeat with --debug and report what it prints"),
        ExitCode.OUR_FAULT);
  }

  /** A text with control characters made visible, cut to a length that can be read. */
  public static String oneLine(String text) {
    StringBuilder line = new StringBuilder();
    text.codePoints()
        .limit(LONGEST)
        .forEach(
            c -> {
              if (c == '\n' || c == '\r' || c == '\t') {
                line.append(' ');
              } else if (Character.isISOControl(c) || Character.getType(c) == Character.FORMAT) {
                line.append(String.format(java.util.Locale.ROOT, "\\x%02x", c));
              } else {
                line.appendCodePoint(c);
              }
            });
    return line.toString();
  }

  private static FaultLine input(String text) {
    return new FaultLine(oneLine(text), ExitCode.INPUT_AT_FAULT);
  }

  private static String reason(FileSystemException failure) {
    if (failure instanceof NoSuchFileException) {
      return "expected a file, found nothing; check the name";
    }
    if (failure instanceof AccessDeniedException) {
      return "expected a file that may be used, found that access is denied; check its permissions";
    }
    if (failure instanceof NotDirectoryException || failure instanceof FileAlreadyExistsException) {
      return "expected a folder, found a file; give another place";
    }
    String reason = failure.getReason();
    return "could not be read or written: "
        + (reason == null ? failure.getClass().getSimpleName() : reason)
        + "; check the place and the space on the disk";
  }
}
