package org.lonefibre.workbench.server;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.function.Consumer;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/**
 * The server on loopback.
 *
 * <ul>
 *   <li>It binds to 127.0.0.1 and nothing else.
 *   <li>A refusal is one sentence; a fault of the program is written to the local log without what
 *       was asked for, and the person sees its number.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class LocalServer implements AutoCloseable {

  /** The only address it is ever bound to. */
  public static final String ADDRESS = "127.0.0.1";

  private static final Logger LOG = Logger.getLogger("org.lonefibre.workbench");
  private static final long MOST_BYTES = 1L << 32;

  private final Javalin javalin;
  private final Token token;

  private LocalServer(Javalin javalin, Token token) {
    this.javalin = javalin;
    this.token = token;
  }

  /**
   * Starts it.
   *
   * @param port port; 0 for a free one
   */
  public static LocalServer start(int port, Consumer<RoutesConfig> routes) {
    Token token = Token.fresh();
    Guard guard = new Guard(token);
    Javalin javalin =
        Javalin.create(
            config -> {
              config.startup.showJavalinBanner = false;
              config.startup.showOldJavalinVersionWarning = false;
              config.http.maxRequestSize = MOST_BYTES;
              config.http.prefer405over404 = true;
              // Nothing is gained by packing what does not leave this computer.
              config.http.compressionStrategy = CompressionStrategy.NONE;
              config.jetty.host = ADDRESS;
              config.jetty.port = port;
              config.jetty.modifyHttpConfiguration(
                  http -> {
                    http.setSendServerVersion(false);
                    http.setSendDateHeader(false);
                  });
              config.jetty.modifyServer(
                  server -> {
                    server.setErrorHandler(LocalServer::bareError);
                    // A browser keeps its connections open; nothing waits for them.
                    server.setStopTimeout(0);
                  });
              config.routes.before(guard::check);
              config.routes.get("/", context -> Pages.serve(context, "index.html"));
              config.routes.get(
                  "/web/<path>", context -> Pages.serve(context, context.pathParam("path")));
              routes.accept(config.routes);
              refusals(config.routes);
            });
    javalin.start();
    return new LocalServer(javalin, token);
  }

  private static void refusals(RoutesConfig routes) {
    routes.exception(
        Refusal.class, (refusal, context) -> say(context, refusal.status(), refusal.sentence()));
    routes.exception(
        NoSuchElementException.class,
        (missing, context) -> say(context, 404, "There is nothing of this name (any more)."));
    routes.exception(
        IllegalArgumentException.class,
        (fault, context) -> say(context, 400, String.valueOf(fault.getMessage())));
    routes.exception(
        Exception.class,
        (fault, context) -> {
          String number = Integer.toHexString(System.identityHashCode(fault));
          LOG.log(
              Level.WARNING,
              "fault " + number + " in " + context.endpoints().lastHttpEndpoint(),
              fault);
          say(context, 500, "A fault of the program, number " + number + " in its log.");
        });
    for (int status : new int[] {404, 405, 413}) {
      routes.error(
          status,
          context -> {
            if (context.contentType() == null || !context.contentType().contains("json")) {
              say(context, status, "This is not served here.");
            }
          });
    }
  }

  private static void say(Context context, int status, String sentence) {
    context.status(status);
    json(context, Json.object().put("error", sentence));
  }

  /** Answers with a value as JSON. */
  public static void json(Context context, Object value) {
    context.contentType("application/json");
    context.result(Json.bytes(value));
  }

  private static boolean bareError(Request request, Response response, Callback callback) {
    Guard.HEADERS.forEach((name, value) -> response.getHeaders().put(name, value));
    response.getHeaders().put(HttpHeader.CONTENT_TYPE, "application/json");
    Content.Sink.write(response, true, "{\"error\":\"This is not served here.\"}", callback);
    return true;
  }

  /** Everything that is served, each as method and path. */
  public List<String> listRoutes() {
    return javalin.unsafe.internalRouter.allHttpHandlers().stream()
        .map(handler -> handler.endpoint.method.name() + " " + handler.endpoint.path)
        .filter(route -> route.startsWith("GET ") || route.startsWith("POST "))
        .toList();
  }

  /** Its port. */
  public int port() {
    return javalin.port();
  }

  /** The address to open, with the token where no log sees it. */
  public String address() {
    return "http://" + ADDRESS + ":" + port() + "/#token=" + token.text();
  }

  @Override
  public void close() {
    javalin.stop();
  }
}
