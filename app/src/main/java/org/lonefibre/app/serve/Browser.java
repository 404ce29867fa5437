package org.lonefibre.app.serve;

import java.io.IOException;
import java.util.List;
import java.util.Locale;

/** Opens an address in the browser of the desktop, where there is one. */
final class Browser {

  private Browser() {}

  static void open(String address) {
    String system = System.getProperty("os.name").toLowerCase(Locale.ROOT);
    List<String> command =
        system.startsWith("windows")
            ? List.of("rundll32", "url.dll,FileProtocolHandler", address)
            : system.startsWith("mac") ? List.of("open", address) : List.of("xdg-open", address);
    if (system.startsWith("linux")
        && System.getenv("DISPLAY") == null
        && System.getenv("WAYLAND_DISPLAY") == null) {
      return;
    }
    try {
      new ProcessBuilder(command)
          .redirectErrorStream(true)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .start();
    } catch (IOException e) {
      // The address is printed: it can be opened by hand.
    }
  }
}
