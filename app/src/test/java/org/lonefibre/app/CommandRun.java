package org.lonefibre.app;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/** The program run as a shell runs it, with what it printed. Thread rule: one at a time. */
public record CommandRun(int exitCode, String output, String errors) {

  public static synchronized CommandRun of(Object... arguments) {
    String[] words = new String[arguments.length];
    for (int i = 0; i < words.length; i++) {
      words[i] = arguments[i].toString();
    }
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream output = new ByteArrayOutputStream();
    ByteArrayOutputStream errors = new ByteArrayOutputStream();
    try (PrintStream caught = new PrintStream(output, true, StandardCharsets.UTF_8);
        PrintStream caughtErrors = new PrintStream(errors, true, StandardCharsets.UTF_8)) {
      System.setOut(caught);
      System.setErr(caughtErrors);
      int code = Lonefibre.run(words);
      return new CommandRun(
          code, output.toString(StandardCharsets.UTF_8), errors.toString(StandardCharsets.UTF_8));
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
  }
}
