package org.lonefibre.store.audit;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 in hexadecimal digits. Thread rule: safe. */
public final class Hash {

  private Hash() {}

  /** Of bytes. */
  public static String of(byte[] bytes) {
    return HexFormat.of().formatHex(digest().digest(bytes));
  }

  /** Of a text as UTF-8. */
  public static String of(String text) {
    return of(text.getBytes(StandardCharsets.UTF_8));
  }

  /** Of parts, each with its length before it: no two lists of parts give the same bytes. */
  static String ofParts(String... parts) {
    MessageDigest digest = digest();
    for (String part : parts) {
      byte[] bytes = part.getBytes(StandardCharsets.UTF_8);
      digest.update((bytes.length + ":").getBytes(StandardCharsets.US_ASCII));
      digest.update(bytes);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /** A fresh digest. */
  public static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
