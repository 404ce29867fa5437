package org.lonefibre.store.studies;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.mapper.RowMapper;
import org.jspecify.annotations.Nullable;
import org.lonefibre.store.audit.ChangeLog;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.store.recordings.KeptRecording;

/**
 * The studies: what they hold and every change of it, each with its entry in the record of changes
 * in the same transaction. What a call returned from is on the disk.
 *
 * <ul>
 *   <li>An unknown study: NoSuchElementException.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class StudyShelf {

  private static final RowMapper<KeptStudy> STUDY =
      (row, context) -> {
        long revision = row.getLong("revision");
        long signed = row.getLong("signed_revision");
        return new KeptStudy(
            row.getString("id"),
            row.getString("title"),
            row.getString("subject_code"),
            row.getString("provenance"),
            row.getString("created_at"),
            row.getString("changed_at"),
            revision,
            signed == 0 ? "open" : signed == revision ? "signed" : "amended");
      };
  private static final String STUDIES =
      "select study.*, coalesce((select max(revision) from signature where study_id = study.id), 0)"
          + " as signed_revision from study ";

  private final Jdbi jdbi;
  private final ChangeLog changes;

  /** The studies of a database. */
  public StudyShelf(Jdbi jdbi, ChangeLog changes) {
    this.jdbi = jdbi;
    this.changes = changes;
  }

  /** Studies whose title or subject holds a text, the last changed first. */
  public List<KeptStudy> list(String search) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    STUDIES
                        + "where lower(title || ' ' || coalesce(subject_code, '')) like :like"
                        + " escape '!' order by changed_at desc, id")
                .bind(
                    "like", "%" + escaped(search.strip().toLowerCase(java.util.Locale.ROOT)) + "%")
                .map(STUDY)
                .list());
  }

  private static String escaped(String text) {
    return text.replace("!", "!!").replace("%", "!%").replace("_", "!_");
  }

  /** A study, if there is one. */
  public Optional<KeptStudy> find(String id) {
    return jdbi.withHandle(handle -> find(handle, id));
  }

  private static Optional<KeptStudy> find(Handle handle, String id) {
    return handle.createQuery(STUDIES + "where id = :id").bind("id", id).map(STUDY).findFirst();
  }

  /** Begins a study. */
  public KeptStudy create(
      String title, @Nullable String subjectCode, String provenance, String actor) {
    String id = UUID.randomUUID().toString();
    String now = changes.now();
    return jdbi.inTransaction(
        handle -> {
          handle
              .createUpdate(
                  "insert into study (id, title, subject_code, provenance, created_at, changed_at,"
                      + " revision) values (:id, :title, :code, :provenance, :now, :now, 1)")
              .bind("id", id)
              .bind("title", title)
              .bind("code", subjectCode)
              .bind("provenance", provenance)
              .bind("now", now)
              .execute();
          changes.append(handle, actor, subject(id), "created", "", title, "");
          return find(handle, id).orElseThrow();
        });
  }

  /** Gives a study another title and subject. */
  public void rename(String id, String title, @Nullable String subjectCode, String actor) {
    change(
        id,
        handle -> {
          KeptStudy before = find(handle, id).orElseThrow();
          if (before.title().equals(title)
              && java.util.Objects.equals(before.subjectCode(), subjectCode)) {
            return false;
          }
          handle
              .createUpdate("update study set title = :title, subject_code = :code where id = :id")
              .bind("title", title)
              .bind("code", subjectCode)
              .bind("id", id)
              .execute();
          changes.append(
              handle,
              actor,
              subject(id),
              "renamed",
              before.title() + ", subject " + before.subjectCode(),
              title + ", subject " + subjectCode,
              "");
          return true;
        });
  }

  /** Puts recordings, in order, and all documents of an analysis into a study at once. */
  public void keepAnalysis(
      String id,
      Map<KeptRecording, String> fileNames,
      Map<String, String> documents,
      String actor,
      String reason) {
    change(
        id,
        handle -> {
          int position = count(handle, "study_recording", id);
          for (Map.Entry<KeptRecording, String> file : fileNames.entrySet()) {
            attach(handle, id, ++position, file.getKey(), file.getValue());
            changes.append(
                handle,
                actor,
                subject(id),
                "recording added",
                "",
                file.getValue() + ", SHA-256 " + file.getKey().sha256(),
                reason);
          }
          documents.forEach(
              (kind, content) -> {
                String before = document(handle, id, kind).map(Hash::of).orElse("");
                putDocument(handle, id, kind, content);
                changes.append(handle, actor, subject(id), kind, before, Hash.of(content), reason);
              });
          return true;
        });
  }

  private void attach(Handle handle, String id, int position, KeptRecording file, String name) {
    handle
        .createUpdate(
            "insert into recording (sha256, extension, size_bytes, kept_at)"
                + " values (:sha256, :extension, :sizeBytes, :now) on conflict (sha256) do nothing")
        .bindMethods(file)
        .bind("now", changes.now())
        .execute();
    handle
        .createUpdate(
            "insert into study_recording (study_id, position, sha256, file_name)"
                + " values (:id, :position, :sha256, :name)")
        .bind("id", id)
        .bind("position", position)
        .bind("sha256", file.sha256())
        .bind("name", name)
        .execute();
  }

  private void putDocument(Handle handle, String id, String kind, String content) {
    int number =
        handle
            .createQuery(
                "select coalesce(max(number), 0) from document where study_id = :id and kind = :k")
            .bind("id", id)
            .bind("k", kind)
            .mapTo(Integer.class)
            .one();
    handle
        .createUpdate(
            "insert into document (study_id, kind, number, content, sha256, created_at)"
                + " values (:id, :kind, :number, :content, :sha256, :now)")
        .bind("id", id)
        .bind("kind", kind)
        .bind("number", number + 1)
        .bind("content", content)
        .bind("sha256", Hash.of(content))
        .bind("now", changes.now())
        .execute();
  }

  /** The newest document of a kind; earlier ones are kept too. */
  public Optional<String> findDocument(String id, String kind) {
    return jdbi.withHandle(handle -> document(handle, id, kind));
  }

  private static Optional<String> document(Handle handle, String id, String kind) {
    return handle
        .createQuery(
            "select content from document where study_id = :id and kind = :kind"
                + " order by number desc limit 1")
        .bind("id", id)
        .bind("kind", kind)
        .mapTo(String.class)
        .findFirst();
  }

  /** The studies that hold a document of a kind, in the order they were begun. */
  public List<String> listWithDocument(String kind) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "select distinct study.id, study.created_at from study join document"
                        + " on study.id = study_id where kind = :kind order by study.created_at, study.id")
                .bind("kind", kind)
                .map((row, context) -> row.getString(1))
                .list());
  }

  /** The hash of the newest document of a kind. */
  public Optional<String> findDocumentHash(String id, String kind) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "select sha256 from document where study_id = :id and kind = :kind"
                        + " order by number desc limit 1")
                .bind("id", id)
                .bind("kind", kind)
                .mapTo(String.class)
                .findFirst());
  }

  /** The recordings of a study, in order. */
  public List<StudyFile> listFiles(String id) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "select position, sha256, file_name from study_recording where study_id = :id"
                        + " order by position")
                .bind("id", id)
                .map(
                    (row, context) ->
                        new StudyFile(
                            row.getInt("position"),
                            row.getString("sha256"),
                            row.getString("file_name")))
                .list());
  }

  /** The recording with a hash, if it is kept. */
  public Optional<KeptRecording> findRecording(String sha256) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("select * from recording where sha256 = :sha256")
                .bind("sha256", sha256)
                .map(
                    (row, context) ->
                        new KeptRecording(
                            row.getString("sha256"),
                            row.getString("extension"),
                            row.getLong("size_bytes")))
                .findFirst());
  }

  /** Titles of the studies that hold a recording. */
  public List<String> listTitlesWith(String sha256) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "select distinct title from study join study_recording on id = study_id"
                        + " where sha256 = :sha256 order by title")
                .bind("sha256", sha256)
                .mapTo(String.class)
                .list());
  }

  /** What a person typed, by field. */
  public Map<String, String> notes(String id) {
    return jdbi.withHandle(
        handle -> {
          Map<String, String> notes = new LinkedHashMap<>();
          handle
              .createQuery("select field, content from note where study_id = :id order by field")
              .bind("id", id)
              .map((row, context) -> Map.entry(row.getString(1), row.getString(2)))
              .forEach(note -> notes.put(note.getKey(), note.getValue()));
          return notes;
        });
  }

  /** Saves what a person typed into a field. */
  public void note(String id, String field, String content, String actor) {
    change(
        id,
        handle -> {
          String before =
              handle
                  .createQuery("select content from note where study_id = :id and field = :field")
                  .bind("id", id)
                  .bind("field", field)
                  .mapTo(String.class)
                  .findFirst()
                  .orElse("");
          if (before.equals(content)) {
            return false;
          }
          handle
              .createUpdate(
                  "insert into note (study_id, field, content, changed_at)"
                      + " values (:id, :field, :content, :now) on conflict (study_id, field)"
                      + " do update set content = excluded.content,"
                      + " changed_at = excluded.changed_at")
              .bind("id", id)
              .bind("field", field)
              .bind("content", content)
              .bind("now", changes.now())
              .execute();
          changes.append(handle, actor, subject(id), field, before, content, "");
          return true;
        });
  }

  /**
   * Enters into the record of changes that a report was sent, or that it may have been; the study
   * stays as it is.
   *
   * @param what what was sent and where to
   * @param outcome what came of it
   */
  public void noteSending(String id, String what, String outcome, String actor) {
    change(
        id,
        handle -> {
          changes.append(handle, actor, subject(id), "report sent", "", what, outcome);
          return false;
        });
  }

  /** The decisions about a study: how they are taken, undone and redone. */
  public Steps steps() {
    return new Steps(jdbi, changes, this);
  }

  /** The signatures of a study and how one is added. */
  public Signatures signatures() {
    return new Signatures(jdbi, changes, this);
  }

  /** A change within a transaction; it says whether anything changed. */
  interface Work {
    boolean on(Handle handle);
  }

  void change(String id, Work work) {
    jdbi.useTransaction(
        handle -> {
          int found =
              handle
                  .createUpdate("update study set changed_at = changed_at where id = :id")
                  .bind("id", id)
                  .execute();
          if (found == 0) {
            throw new NoSuchElementException("there is no study " + id);
          }
          if (work.on(handle)) {
            handle
                .createUpdate(
                    "update study set revision = revision + 1, changed_at = :now where id = :id")
                .bind("now", changes.now())
                .bind("id", id)
                .execute();
          }
        });
  }

  static String subject(String id) {
    return "study " + id;
  }

  private static int count(Handle handle, String table, String id) {
    return handle
        .createQuery("select count(*) from " + table + " where study_id = :id")
        .bind("id", id)
        .mapTo(Integer.class)
        .one();
  }
}
