package org.lonefibre.report.document;

import java.util.List;

/**
 * A raw file and what of it was used.
 *
 * @param name its name without folders
 * @param sha256 SHA-256 of the whole file
 * @param format its format
 * @param uses one line a site: channel, stretch, sampling rate, noise
 */
public record SourceFile(String name, String sha256, String format, List<String> uses) {

  /** Copies the uses. */
  public SourceFile {
    uses = List.copyOf(uses);
  }
}
