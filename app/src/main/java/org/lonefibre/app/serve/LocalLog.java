package org.lonefibre.app.serve;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.logging.FileHandler;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import org.lonefibre.store.audit.OwnerOnly;

/** Faults of the workbench, written to a file in the data folder; small, and for its owner. */
final class LocalLog {

  private static final int MOST_BYTES = 1 << 20;

  /** Held, or the settings are forgotten with it. */
  private static final Logger WORKBENCH = Logger.getLogger("org.lonefibre.workbench");

  private LocalLog() {}

  static void begin(Path folder) throws IOException {
    OwnerOnly.folder(folder);
    FileHandler file =
        new FileHandler(folder.resolve("faults-%g.log").toString(), MOST_BYTES, 2, true);
    file.setFormatter(new SimpleFormatter());
    WORKBENCH.setUseParentHandlers(false);
    WORKBENCH.setLevel(Level.WARNING);
    WORKBENCH.addHandler(file);
    Path first = folder.resolve("faults-0.log");
    if (Files.exists(first)) {
      OwnerOnly.file(first);
    }
  }
}
