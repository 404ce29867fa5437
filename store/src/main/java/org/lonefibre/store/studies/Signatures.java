package org.lonefibre.store.studies;

import java.util.List;
import org.jdbi.v3.core.Jdbi;
import org.lonefibre.store.audit.ChangeLog;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.store.audit.Seal;

/** Signed states of studies. Thread rule: safe. */
public final class Signatures {

  private final Jdbi jdbi;
  private final ChangeLog changes;
  private final StudyShelf shelf;

  Signatures(Jdbi jdbi, ChangeLog changes, StudyShelf shelf) {
    this.jdbi = jdbi;
    this.changes = changes;
    this.shelf = shelf;
  }

  /** The signed versions of a study, in order. */
  public List<SignedVersion> list(String id) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("select * from signature where study_id = :id order by version")
                .bind("id", id)
                .map(
                    (row, context) ->
                        new SignedVersion(
                            row.getInt("version"),
                            row.getString("content"),
                            row.getString("sha256"),
                            row.getString("seal"),
                            row.getString("public_key"),
                            row.getString("signer"),
                            row.getString("meaning"),
                            row.getString("signed_at"),
                            row.getLong("revision")))
                .list());
  }

  /**
   * Signs a study as it stands at a revision.
   *
   * @param content the study as canonical JSON
   * @throws IllegalStateException if the study was changed since that revision
   */
  public void sign(
      String id, long revision, String content, Seal seal, String signer, String meaning) {
    shelf.change(
        id,
        handle -> {
          long now =
              handle
                  .createQuery("select revision from study where id = :id")
                  .bind("id", id)
                  .mapTo(Long.class)
                  .one();
          if (now != revision) {
            throw new IllegalStateException("the study was changed while it was being signed");
          }
          handle
              .createUpdate(
                  "insert into signature (study_id, version, content, sha256, seal, public_key,"
                      + " signer, meaning, signed_at, revision) values (:id, (select"
                      + " coalesce(max(version), 0) + 1 from signature where study_id = :id),"
                      + " :content, :sha256, :seal, :publicKey, :signer, :meaning, :now,"
                      + " :revision)")
              .bind("id", id)
              .bind("content", content)
              .bind("sha256", Hash.of(content))
              .bind("seal", seal.seal(content))
              .bind("publicKey", seal.publicKey())
              .bind("signer", signer)
              .bind("meaning", meaning)
              .bind("now", changes.now())
              // The signature itself is a change.
              .bind("revision", revision + 1)
              .execute();
          changes.append(
              handle, signer, StudyShelf.subject(id), "signed", "", Hash.of(content), meaning);
          return true;
        });
  }
}
