package org.lonefibre.formats.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Where the fuzzer enters for a long run: {@code ./fuzz PARSER SECONDS}. As a program it writes the
 * seeds of a parser into a folder. The files of an input are written into the folder that {@code
 * lonefibre.fuzz.folder} names.
 */
public final class FuzzEntry {

  private static final FuzzTarget TARGET = target(System.getProperty("lonefibre.fuzz", "edf"));
  private static final ReaderCheck CHECK = new ReaderCheck(TARGET, folder());

  private FuzzEntry() {}

  private static FuzzTarget target(String name) {
    return FuzzTarget.valueOf(name.toUpperCase(Locale.ROOT));
  }

  private static Path folder() {
    return Path.of(System.getProperty("lonefibre.fuzz.folder", "."));
  }

  /** One input; the fuzzer looks for this name. */
  public static void fuzzerTestOneInput(byte[] input) {
    CHECK.accept(input);
  }

  /** Writes the seeds of a parser: PARSER FOLDER. */
  public static void main(String[] arguments) throws IOException {
    FuzzTarget target = target(arguments[0]);
    Path seeds = Files.createDirectories(Path.of(arguments[1]));
    int number = 0;
    for (byte[] seed : target.seeds()) {
      Files.write(seeds.resolve(String.format(Locale.ROOT, "seed-%03d", ++number)), seed);
    }
  }
}
