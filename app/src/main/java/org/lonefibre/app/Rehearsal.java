package org.lonefibre.app;

import java.nio.file.Path;
import java.util.Locale;
import java.util.logging.Level;
import java.util.logging.Logger;

/**
 * A small run through the commands, which the launcher makes once after a build so that Java can
 * keep the classes it used for quicker starts. Nothing depends on it.
 */
final class Rehearsal {

  private Rehearsal() {}

  /**
   * Runs.
   *
   * @param arguments a folder to write to
   */
  public static void main(String[] arguments) {
    Locale.setDefault(Locale.ROOT);
    Logger.getLogger("").setLevel(Level.OFF);
    String folder = arguments[0];
    String recording = Path.of(folder, "site01.edf").toString();
    Lonefibre.run("--help");
    Lonefibre.run("analyse", "--help");
    Lonefibre.run("simulate", "--sites", "1", "--duration-s", "6", "--out", folder);
    Lonefibre.run("analyse", recording, "--out", folder);
    System.exit(Lonefibre.run("analyse", recording, "--json", "-"));
  }
}
