package org.lonefibre.app.sending;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.report.dicom.PacsLogin;
import picocli.CommandLine.Option;

/** How an archive is reached: the login, from a file or the environment, and the patience. */
public final class DestinationOptions {

  private static final String VARIABLE = "LONEFIBRE_PACS_LOGIN";
  private static final long MOST_BYTES = 8192;

  @Option(
      names = "--login-file",
      paramLabel = "FILE",
      description =
          "One line, basic USER:PASSWORD or bearer TOKEN (else the variable LONEFIBRE_PACS_LOGIN);"
              + " it is stored nowhere.")
  private @Nullable Path loginFile;

  @Option(
      names = "--wait-s",
      paramLabel = "S",
      defaultValue = "60",
      description = "Seconds to wait for the archive's answer, 1 to 600; 60 if not given.")
  private int waitS;

  /**
   * The archive at an address.
   *
   * @param option the option that names it
   * @throws InputFault if it is no address, or the login is none; neither is repeated, both may
   *     hold a password
   */
  public Pacs pacs(String address, String option) throws IOException {
    if (waitS < 1 || waitS > 600) {
      throw new InputFault(
          "--wait-s", "", "1 to 600", Integer.toString(waitS), "give a time in seconds");
    }
    PacsLogin login = login();
    URI named;
    try {
      named = URI.create(address.strip());
      new Pacs(named, Duration.ofSeconds(waitS));
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          option,
          "",
          "the http or https root of a DICOMweb service without user name, query or fragment",
          "something else",
          "write it as http://pacs.example:8042/dicom-web");
    }
    try {
      return new Pacs(named, Duration.ofSeconds(waitS), login);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          option,
          "",
          "an https address, since there is a login",
          named.getScheme() + " to another computer",
          "a login is not sent unencrypted");
    }
  }

  private PacsLogin login() throws IOException {
    Path file = loginFile;
    String told = System.getenv(VARIABLE);
    if (file == null && (told == null || told.isBlank())) {
      return PacsLogin.NONE;
    }
    String from = file == null ? VARIABLE : file.toString();
    try {
      if (file != null && Files.size(file) > MOST_BYTES) {
        throw new IllegalArgumentException("too long");
      }
      return PacsLogin.of(file == null ? told : Files.readString(file));
    } catch (NoSuchFileException e) {
      throw new InputFault("--login-file", "", "a file", from, "check the name");
    } catch (IllegalArgumentException | java.nio.charset.CharacterCodingException e) {
      throw new InputFault(
          from,
          "",
          "one line, basic USER:PASSWORD or bearer TOKEN",
          "something else",
          "write the login alone");
    }
  }
}
