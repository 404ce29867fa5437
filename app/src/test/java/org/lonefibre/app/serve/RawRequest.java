package org.lonefibre.app.serve;

import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/** A request written byte by byte, with whatever headers an attacker likes. */
final class RawRequest {

  /** What came back. */
  record Answer(int status, Map<String, String> headers, String body) {}

  private final int port;
  private final String first;
  private final Map<String, String> headers = new LinkedHashMap<>();
  private String body = "";

  private RawRequest(int port, String first) {
    this.port = port;
    this.first = first;
  }

  /** As a page of the workbench asks. */
  static RawRequest own(RunningWorkbench running, String method, String path) {
    int port = running.workbench().port();
    RawRequest request = new RawRequest(port, method + " " + path + " HTTP/1.1");
    request.with("Host", "127.0.0.1:" + port);
    request.with("Sec-Fetch-Site", "same-origin");
    request.with("Authorization", "Bearer " + running.token());
    if (!method.equals("GET")) {
      request.with("Origin", "http://127.0.0.1:" + port);
      request.with("Content-Type", "application/json");
      request.with("Lonefibre-Request", "1");
      request.with("Lonefibre-Person", "Dr%20Example");
    }
    return request;
  }

  RawRequest with(String name, String value) {
    headers.put(name, value);
    return this;
  }

  RawRequest without(String name) {
    headers.remove(name);
    return this;
  }

  RawRequest body(String text) {
    body = text;
    return this;
  }

  Answer send() throws IOException {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket.setSoTimeout(120_000);
      StringBuilder request = new StringBuilder(first).append("\r\n");
      byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
      headers.forEach(
          (name, value) -> request.append(name).append(": ").append(value).append("\r\n"));
      request
          .append("Content-Length: ")
          .append(bytes.length)
          .append("\r\nConnection: close\r\n\r\n");
      socket.getOutputStream().write(request.toString().getBytes(StandardCharsets.UTF_8));
      socket.getOutputStream().write(bytes);
      socket.getOutputStream().flush();
      String text = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      int end = text.indexOf("\r\n\r\n");
      Map<String, String> found = new LinkedHashMap<>();
      String[] lines = text.substring(0, Math.max(0, end)).split("\r\n");
      for (int i = 1; i < lines.length; i++) {
        int colon = lines[i].indexOf(':');
        found.put(
            lines[i].substring(0, colon).toLowerCase(Locale.ROOT),
            lines[i].substring(colon + 1).strip());
      }
      return new Answer(
          Integer.parseInt(lines[0].split(" ")[1]), found, end < 0 ? "" : text.substring(end + 4));
    }
  }
}
