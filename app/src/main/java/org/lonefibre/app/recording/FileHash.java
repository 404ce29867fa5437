package org.lonefibre.app.recording;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 of a file, read in blocks. Thread rule: safe. */
public final class FileHash {

  private static final int BLOCK = 1 << 17;

  private FileHash() {}

  /** The hash, in hexadecimal digits. */
  public static String sha256(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] block = new byte[BLOCK];
      for (int length = in.read(block); length >= 0; length = in.read(block)) {
        digest.update(block, 0, length);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
