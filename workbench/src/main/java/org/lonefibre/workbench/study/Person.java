package org.lonefibre.workbench.study;

import io.javalin.http.Context;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import org.lonefibre.workbench.server.Refusal;

/** Who works: as the page says, written into the record of changes. */
public final class Person {

  static final String HEADER = "Lonefibre-Person";
  private static final int LONGEST = 80;

  private Person() {}

  /** The person of a request that changes something. */
  public static String of(Context context) {
    String header = context.header(HEADER);
    String name = header == null ? "" : URLDecoder.decode(header, StandardCharsets.UTF_8).strip();
    if (name.isEmpty()) {
      throw new Refusal(
          400, "Say who you are before you change anything (Working as, at the top).");
    }
    if (name.length() > LONGEST || name.codePoints().anyMatch(Character::isISOControl)) {
      throw new Refusal(400, "The name is longer than 80 characters or holds control characters.");
    }
    return name;
  }
}
