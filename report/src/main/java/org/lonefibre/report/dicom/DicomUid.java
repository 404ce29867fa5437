package org.lonefibre.report.dicom;

import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;

/**
 * Identities below 2.25, which nobody has to issue (DICOM PS3.5, B.2; ITU-T X.667): a UUID made of
 * the hash of what it names, so that the same thing has the same identity wherever it is made.
 */
final class DicomUid {

  /** The program, as the maker of files. */
  static final String IMPLEMENTATION = named("lonefibre implementation");

  private static final int UUID_BYTES = 16;
  private static final int HASH_VERSION = 0x80; // version 8: a UUID of one's own making

  private DicomUid() {}

  static String named(String name) {
    return of(name.getBytes(StandardCharsets.UTF_8));
  }

  static String of(byte[] content) {
    byte[] uuid = Arrays.copyOf(sha256(content), UUID_BYTES);
    uuid[6] = (byte) ((uuid[6] & 0x0F) | HASH_VERSION);
    uuid[8] = (byte) ((uuid[8] & 0x3F) | 0x80);
    return "2.25." + new BigInteger(1, uuid);
  }

  private static byte[] sha256(byte[] content) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(content);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
