package org.lonefibre.workbench.server;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Map;

/** The files of the front end: only names known here are served, from the jar. */
final class Pages {

  private static final Map<String, String> TYPES =
      Map.of(
          "html", "text/html; charset=utf-8",
          "js", "text/javascript; charset=utf-8",
          "css", "text/css; charset=utf-8",
          "svg", "image/svg+xml");

  private Pages() {}

  static void serve(Context context, String path) throws IOException {
    if (!path.matches("[a-z0-9-]+(/[a-z0-9-]+)?\\.(html|js|css|svg)")) {
      throw new Refusal(404, "There is nothing of this name.");
    }
    try (InputStream in = Pages.class.getResourceAsStream("/org/lonefibre/workbench/web/" + path)) {
      if (in == null) {
        throw new Refusal(404, "There is nothing of this name.");
      }
      context.contentType(
          TYPES.getOrDefault(path.substring(path.lastIndexOf('.') + 1), "text/plain"));
      context.result(in.readAllBytes());
    }
  }
}
