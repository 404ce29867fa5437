package org.lonefibre.workbench.server;

import io.javalin.http.Context;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Stands before every route.
 *
 * <ol>
 *   <li>Headers that keep a browser from doing more than it should, on every answer.
 *   <li>The Host header must be exactly this server's: no other name may lead here.
 *   <li>Everything under {@code /api} needs the token and must come from a page of this server;
 *       what changes anything must be JSON with a header of our own besides. A recording is sent as
 *       bytes: it changes no study until a JSON request names it.
 * </ol>
 */
final class Guard {

  static final String CUSTOM_HEADER = "Lonefibre-Request";

  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
          + " connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none';"
          + " require-trusted-types-for 'script'; trusted-types 'none'";

  /** Also on what the server itself refuses before any route. */
  static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy", POLICY,
          "X-Content-Type-Options", "nosniff",
          "Referrer-Policy", "no-referrer",
          "Cache-Control", "no-store",
          "Cross-Origin-Opener-Policy", "same-origin",
          "Cross-Origin-Resource-Policy", "same-origin",
          "X-Frame-Options", "DENY",
          "Permissions-Policy", "camera=(), geolocation=(), microphone=()");

  private static final Set<String> READING = Set.of("GET", "HEAD");
  private static final String BYTES_ROUTE = "/api/recordings";

  private final Token token;

  Guard(Token token) {
    this.token = token;
  }

  void check(Context context) {
    HEADERS.forEach(context::header);
    int port = context.req().getLocalPort();
    String host = context.header("Host");
    if (!("127.0.0.1:" + port).equals(host) && !("localhost:" + port).equals(host)) {
      throw new Refusal(421, "This address is not served here.");
    }
    if (context.req().getQueryString() != null
        && context.req().getQueryString().contains(token.text())) {
      throw new Refusal(400, "The token does not belong into an address.");
    }
    String site = context.header("Sec-Fetch-Site");
    String origin = context.header("Origin");
    boolean own = origin == null || origin.equals("http://" + host);
    boolean reading = READING.contains(context.method().name());
    if (!context.path().startsWith("/api/")) {
      // A page may be opened from the address bar; nothing else from another site.
      if (!reading || !own || !("same-origin".equals(site) || "none".equals(site))) {
        throw new Refusal(403, "This is served only to pages of this server.");
      }
      return;
    }
    if (!own || !"same-origin".equals(site)) {
      throw new Refusal(403, "This is served only to pages of this server.");
    }
    if (!token.fits(context.header("Authorization"))) {
      throw new Refusal(
          401,
          "The token of this launch is missing: open the address again that was"
              + " printed at the start.");
    }
    if (!reading) {
      requireDeliberate(context, origin);
    }
  }

  private static void requireDeliberate(Context context, @Nullable String origin) {
    if (origin == null || !"1".equals(context.header(CUSTOM_HEADER))) {
      throw new Refusal(403, "This change was not asked for by a page of this server.");
    }
    String type = String.valueOf(context.contentType());
    boolean json =
        type.equals("application/json") || type.equals("application/json; charset=utf-8");
    boolean bytes = type.equals("application/octet-stream") && context.path().equals(BYTES_ROUTE);
    if (!json && !bytes) {
      throw new Refusal(415, "Expected a request in JSON.");
    }
  }
}
