package org.lonefibre.workbench.server;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import org.jspecify.annotations.Nullable;

/** What a page must know to be served: 256 random bits, new at each launch. */
final class Token {

  private static final int BYTES = 32;

  private final String text;

  private Token(String text) {
    this.text = text;
  }

  static Token fresh() {
    byte[] bits = new byte[BYTES];
    new SecureRandom().nextBytes(bits);
    return new Token(Base64.getUrlEncoder().withoutPadding().encodeToString(bits));
  }

  String text() {
    return text;
  }

  /** Whether a header holds it; takes the same time whatever it holds. */
  boolean fits(@Nullable String authorization) {
    byte[] expected = ("Bearer " + text).getBytes(StandardCharsets.UTF_8);
    byte[] found = (authorization == null ? "" : authorization).getBytes(StandardCharsets.UTF_8);
    return MessageDigest.isEqual(expected, found);
  }
}
