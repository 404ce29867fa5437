package org.lonefibre.model.leadfield;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.lonefibre.model.electrode.Needle;

/**
 * Everything that goes into a lead field, in words and as a hash.
 *
 * @param needle the needle; its name and sources do not matter
 * @param construction how much of it is there
 * @param settings the rest
 */
record LeadFieldKey(Needle needle, Construction construction, LeadFieldSettings settings) {

  /** To be raised whenever mesh or method change what comes out. */
  private static final int METHOD = 3;

  static String geometry(Needle needle) {
    return needle.shaftDiameterMm()
        + " "
        + needle.shaftLengthMm()
        + " "
        + needle.tip()
        + " "
        + needle.reference();
  }

  byte[] hash() {
    return hash(
        ("method " + METHOD + " " + geometry(needle) + " " + construction + " " + settings)
            .getBytes(StandardCharsets.UTF_8));
  }

  String fileName() {
    return "lead-" + HexFormat.of().formatHex(hash(), 0, 16) + ".bin";
  }

  static byte[] hash(byte[] content) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(content);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
