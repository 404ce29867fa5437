package org.lonefibre.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.lonefibre.store.audit.ChangeLog;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.store.audit.Seal;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.recordings.RecordingFiles;

/** Compares everything kept with its hashes and seals. */
final class Verification {

  private final Jdbi jdbi;
  private final ChangeLog changes;
  private final RecordingFiles recordings;

  Verification(Jdbi jdbi, ChangeLog changes, RecordingFiles recordings) {
    this.jdbi = jdbi;
    this.changes = changes;
    this.recordings = recordings;
  }

  List<String> run() throws IOException {
    try (Handle handle = jdbi.open()) {
      List<String> wrong = new ArrayList<>(changes.verify(handle));
      documents(handle, wrong);
      signatures(handle, wrong);
      files(handle, wrong);
      return wrong;
    }
  }

  private static void documents(Handle handle, List<String> wrong) {
    handle
        .createQuery("select study_id, kind, number, content, sha256 from document")
        .map(
            (row, context) ->
                Hash.of(row.getString("content")).equals(row.getString("sha256"))
                    ? ""
                    : "study "
                        + row.getString("study_id")
                        + ", "
                        + row.getString("kind")
                        + " "
                        + row.getInt("number")
                        + ": was altered")
        .forEach(line -> add(wrong, line));
  }

  private static void signatures(Handle handle, List<String> wrong) {
    handle
        .createQuery("select study_id, version, content, sha256, seal, public_key from signature")
        .map(
            (row, context) -> {
              String content = row.getString("content");
              boolean whole =
                  Hash.of(content).equals(row.getString("sha256"))
                      && Seal.fits(content, row.getString("seal"), row.getString("public_key"));
              return whole
                  ? ""
                  : "study "
                      + row.getString("study_id")
                      + ", signed version "
                      + row.getInt("version")
                      + ": the seal does not fit";
            })
        .forEach(line -> add(wrong, line));
  }

  private void files(Handle handle, List<String> wrong) throws IOException {
    List<KeptRecording> kept =
        handle
            .createQuery("select * from recording")
            .map(
                (row, context) ->
                    new KeptRecording(
                        row.getString("sha256"),
                        row.getString("extension"),
                        row.getLong("size_bytes")))
            .list();
    for (KeptRecording recording : kept) {
      Path file = recordings.path(recording);
      if (!Files.exists(file)) {
        wrong.add("recording " + recording.sha256() + ": is missing");
      } else if (!sha256(file).equals(recording.sha256())) {
        wrong.add("recording " + recording.sha256() + ": was altered");
      }
    }
  }

  static String sha256(Path file) throws IOException {
    MessageDigest digest = Hash.digest();
    try (InputStream in = Files.newInputStream(file)) {
      byte[] block = new byte[1 << 16];
      for (int length = in.read(block); length >= 0; length = in.read(block)) {
        digest.update(block, 0, length);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void add(List<String> wrong, String line) {
    if (!line.isEmpty()) {
      wrong.add(line);
    }
  }
}
