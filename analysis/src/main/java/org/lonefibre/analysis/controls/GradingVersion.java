package org.lonefibre.analysis.controls;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.SettingsStamp;

/**
 * What accepted the signals of a study: the version of the program, of its settings, and the
 * settings of the grading. Limits hold for signals accepted alike.
 */
public final class GradingVersion {

  private static final String PREFIX = "grading.";
  private static final int SHOWN_DIGITS = 8;

  private GradingVersion() {}

  /**
   * The version as one word of a table.
   *
   * @param settings settings in force; where needles differ in one, it stands there once for each,
   *     with the needle in brackets
   * @param needle needle of the study
   */
  public static String of(Producer producer, SettingsStamp settings, String needle) {
    String bracket = "[" + needle + "]";
    StringBuilder grading = new StringBuilder();
    for (SettingsStamp.Entry entry : settings.entries()) {
      String name = entry.name();
      if (name.startsWith(PREFIX) && (!name.endsWith("]") || name.endsWith(bracket))) {
        String plain = name.endsWith("]") ? name.substring(0, name.indexOf('[')) : name;
        grading.append(plain).append('=').append(entry.value()).append('\n');
      }
    }
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256")
              .digest(grading.toString().getBytes(StandardCharsets.UTF_8));
      return producer.version()
          + "/"
          + settings.version()
          + "/"
          + HexFormat.of().formatHex(hash).substring(0, SHOWN_DIGITS);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
