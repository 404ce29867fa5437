package org.lonefibre.report.dicom;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.net.URI;
import java.util.Locale;

/** What an archive answered: only its word that it has this very instance counts. */
final class StowAnswer {

  private static final int OK = 200;
  private static final int ACCEPTED = 202;
  private static final int CONFLICT = 409;
  private static final JsonMapper MAPPER = new JsonMapper();

  private StowAnswer() {}

  static void check(URI address, String instanceUid, int status, byte[] body) throws PacsFault {
    if (status != OK && status != ACCEPTED && status != CONFLICT) {
      throw new PacsFault(address + ": refused with code " + status + "; " + remedy(status));
    }
    JsonNode answer;
    try {
      answer = MAPPER.readTree(body);
    } catch (IOException e) {
      answer = MAPPER.missingNode();
    }
    if (!names(answer, "00081199", instanceUid)) {
      throw new PacsFault(
          address
              + ": the archive did not say that it stored the report (code "
              + status
              + reason(answer)
              + "); look into its log, then send again");
    }
  }

  private static boolean names(JsonNode answer, String sequence, String instanceUid) {
    for (JsonNode item : answer.path(sequence).path("Value")) {
      if (item.at("/00081155/Value/0").asText().equals(instanceUid)) {
        return true;
      }
    }
    return false;
  }

  /** FailureReason of the first item that failed (PS3.18, table I.2-2). */
  private static String reason(JsonNode answer) {
    JsonNode code = answer.at("/00081198/Value/0/00081197/Value/0");
    return code.isInt()
        ? ", failure reason " + String.format(Locale.ROOT, "%04X", code.asInt())
        : "";
  }

  private static String remedy(int status) {
    return switch (status) {
      case 401, 403, 407 ->
          "this archive wants to know who sends; let it accept this computer, or give a login";
      case 404, 405 -> "check the address: it must be the root of a DICOMweb service";
      case 413 -> "the archive does not take a report of this size";
      case 415 -> "the archive does not take this kind of object";
      case 503 -> "the archive is busy; send again later";
      default ->
          status >= 300 && status < 400
              ? "it points elsewhere: name that address if you trust it"
              : "look into the log of the archive, then send again";
    };
  }
}
