package org.lonefibre.report.dicom;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Locale;
import java.util.Optional;

/**
 * How this computer says to an archive who sends. It is kept in no document and printed nowhere.
 *
 * <p>Thread rule: safe.
 */
public final class PacsLogin {

  /** Nothing is said. */
  public static final PacsLogin NONE = new PacsLogin("none", "");

  private final String kind;
  private final String authorization;

  private PacsLogin(String kind, String authorization) {
    this.kind = kind;
    this.authorization = authorization;
  }

  /**
   * A login as people write it: {@code basic USER:PASSWORD} (RFC 7617) or {@code bearer TOKEN} (RFC
   * 6750).
   *
   * @throws IllegalArgumentException if it is neither; the message does not repeat it
   */
  public static PacsLogin of(String text) {
    String[] parts = text.strip().split("\\s+", 2);
    String secret = parts.length == 2 ? parts[1] : "";
    boolean plain = secret.codePoints().noneMatch(Character::isISOControl);
    String kind = parts[0].toLowerCase(Locale.ROOT);
    if (kind.equals("basic") && plain && secret.indexOf(':') > 0) {
      byte[] both = secret.getBytes(StandardCharsets.UTF_8);
      return new PacsLogin(
          "user name and password", "Basic " + Base64.getEncoder().encodeToString(both));
    }
    if (kind.equals("bearer") && secret.matches("[A-Za-z0-9._~+/-]+=*")) {
      return new PacsLogin("token", "Bearer " + secret);
    }
    throw new IllegalArgumentException("expected one line, basic USER:PASSWORD or bearer TOKEN");
  }

  /** What kind it is: none, user name and password, or token. */
  public String kind() {
    return kind;
  }

  /** The field Authorization of a request. */
  Optional<String> authorization() {
    return authorization.isEmpty() ? Optional.empty() : Optional.of(authorization);
  }

  @Override
  public String toString() {
    return kind;
  }
}
