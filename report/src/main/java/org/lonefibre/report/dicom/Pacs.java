package org.lonefibre.report.dicom;

import java.net.ConnectException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * An archive that takes instances by STOW-RS (DICOM PS3.18, 10.5). There is none by default. No
 * proxy is used and no redirection followed: what leaves goes to the address that was named or
 * nowhere.
 *
 * <p>Whatever goes wrong, sending the same instance again makes no second one: its identity is that
 * of its content.
 *
 * <p>Thread rule: safe.
 */
public final class Pacs {

  private static final String AGAIN =
      "; sending again is safe, the same report is never stored twice";

  private final URI studies;
  private final URI root;
  private final PacsLogin login;
  private final Duration patience;
  private final HttpClient client;

  /**
   * @param address root of the DICOMweb service, for example {@code http://host:8042/dicom-web}
   * @param patience how long to wait for the whole answer
   * @throws IllegalArgumentException if the address is no http or https address without user name,
   *     query or fragment
   */
  public Pacs(URI address, Duration patience) {
    this(address, patience, PacsLogin.NONE);
  }

  /**
   * @param address root of the DICOMweb service
   * @param patience how long to wait for the whole answer
   * @param login who sends; it goes to this address alone
   * @throws IllegalArgumentException as above, or if the login would go unencrypted to another
   *     computer
   */
  public Pacs(URI address, Duration patience, PacsLogin login) {
    String scheme = String.valueOf(address.getScheme()).toLowerCase(Locale.ROOT);
    if (!List.of("http", "https").contains(scheme)
        || address.getHost() == null
        || address.getUserInfo() != null
        || address.getQuery() != null
        || address.getFragment() != null) {
      throw new IllegalArgumentException(
          "expected the http or https address of a DICOMweb service without user name, query or"
              + " fragment");
    }
    String text = address.toString();
    this.studies = URI.create((text.endsWith("/") ? text : text + "/") + "studies");
    this.root = address;
    this.login = login;
    if (login.authorization().isPresent() && way().startsWith("NOT")) {
      throw new IllegalArgumentException(
          "expected an https address: a login is not sent to another computer unencrypted");
    }
    this.patience = patience;
    this.client =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .followRedirects(HttpClient.Redirect.NEVER)
            .proxy(HttpClient.Builder.NO_PROXY)
            .connectTimeout(patience)
            .build();
  }

  /** Root of the service. */
  public URI address() {
    return root;
  }

  /** What kind of login it is sent with, without the login. */
  public String login() {
    return login.kind();
  }

  /** Whether anybody on the way could read what is sent, in words. */
  public String way() {
    if ("https".equalsIgnoreCase(root.getScheme())) {
      return "encrypted on its way";
    }
    String host = String.valueOf(root.getHost());
    boolean here = host.equals("localhost") || host.equals("[::1]") || host.startsWith("127.");
    return here ? "this computer" : "NOT encrypted on its way";
  }

  /**
   * Sends an instance and returns when the archive says that it has it.
   *
   * @throws PacsFault if it refuses, does not answer in time, or breaks off; one line
   */
  public void store(EncapsulatedPdf report) throws PacsFault {
    byte[] file = report.file();
    String boundary = "lonefibre-" + report.instanceUid();
    HttpRequest.Builder request =
        HttpRequest.newBuilder(studies)
            .header(
                "Content-Type",
                "multipart/related; type=\"application/dicom\"; boundary=\"" + boundary + "\"")
            .header("Accept", "application/dicom+json")
            .POST(
                BodyPublishers.ofByteArrays(
                    List.of(
                        ascii("--" + boundary + "\r\nContent-Type: application/dicom\r\n\r\n"),
                        file,
                        ascii("\r\n--" + boundary + "--\r\n"))));
    login.authorization().ifPresent(words -> request.header("Authorization", words));
    HttpResponse<byte[]> answer = answer(request.build());
    StowAnswer.check(studies, report.instanceUid(), answer.statusCode(), answer.body());
  }

  /** The whole answer within the patience: the client's own limit ends with the first line. */
  private HttpResponse<byte[]> answer(HttpRequest request) throws PacsFault {
    CompletableFuture<HttpResponse<byte[]>> answer =
        client.sendAsync(request, BodyHandlers.ofByteArray());
    try {
      return answer.get(patience.toMillis(), TimeUnit.MILLISECONDS);
    } catch (TimeoutException e) {
      throw new PacsFault(
          studies + ": no answer within " + seconds() + ", it may have taken the report" + AGAIN);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new PacsFault(studies + ": sending was interrupted" + AGAIN);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof ConnectException) {
        throw new PacsFault(
            studies + ": nobody answers there; check the address, start the archive, send again");
      }
      throw new PacsFault(
          studies + ": the connection broke off, it may have taken the report" + AGAIN);
    } finally {
      answer.cancel(true);
    }
  }

  private String seconds() {
    return patience.toMillis() / 1000.0 + " s";
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}
