package org.lonefibre.formats;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;

/** The folder of recordings made by others, beside the project; tests that need it are skipped. */
public final class SharedFolder {

  private SharedFolder() {}

  public static Path data() {
    Path data = Path.of("../../shared/data");
    assumeTrue(Files.isDirectory(data), "skipped: ../shared/data is not beside the project");
    return data;
  }
}
