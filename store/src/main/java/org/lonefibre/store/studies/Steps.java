package org.lonefibre.store.studies;

import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.mapper.RowMapper;
import org.lonefibre.store.audit.ChangeLog;

/**
 * The decisions about studies, undone and redone without end and over restarts.
 *
 * <p>A new decision abandons those that were undone; nothing is ever deleted. Thread rule: safe.
 */
public final class Steps {

  private static final RowMapper<Step> STEP =
      (row, context) ->
          new Step(
              row.getInt("sequence"),
              row.getString("site"),
              row.getString("step_name"),
              row.getString("content"),
              row.getString("reason"),
              row.getString("actor"),
              row.getString("decided_at"),
              row.getString("state"));

  private final Jdbi jdbi;
  private final ChangeLog changes;
  private final StudyShelf shelf;

  Steps(Jdbi jdbi, ChangeLog changes, StudyShelf shelf) {
    this.jdbi = jdbi;
    this.changes = changes;
    this.shelf = shelf;
  }

  /** All decisions about a study in order, those undone and abandoned included. */
  public List<Step> list(String id) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("select * from decision where study_id = :id order by sequence")
                .bind("id", id)
                .map(STEP)
                .list());
  }

  /** Takes a decision. */
  public void decide(
      String id, String site, String stepName, String content, String reason, String actor) {
    shelf.change(
        id,
        handle -> {
          handle
              .createUpdate(
                  "update decision set state = 'abandoned' where study_id = :id and state ="
                      + " 'undone'")
              .bind("id", id)
              .execute();
          handle
              .createUpdate(
                  "insert into decision (study_id, sequence, site, step_name, content, reason,"
                      + " actor, decided_at, state) values (:id, (select coalesce(max(sequence),"
                      + " 0) + 1 from decision where study_id = :id), :site, :name, :content,"
                      + " :reason, :actor, :now, 'active')")
              .bind("id", id)
              .bind("site", site)
              .bind("name", stepName)
              .bind("content", content)
              .bind("reason", reason)
              .bind("actor", actor)
              .bind("now", changes.now())
              .execute();
          changes.append(
              handle, actor, StudyShelf.subject(id), "decision: " + stepName, "", content, reason);
          return true;
        });
  }

  /** Undoes the last decision; empty if there is none. */
  public Optional<Step> undo(String id, String actor) {
    return move(id, actor, "active", "undone", "desc", "undone: ");
  }

  /** Takes the decision that was undone last again; empty if there is none. */
  public Optional<Step> redo(String id, String actor) {
    return move(id, actor, "undone", "active", "asc", "redone: ");
  }

  private Optional<Step> move(
      String id, String actor, String from, String to, String order, String word) {
    Step[] moved = new Step[1];
    shelf.change(
        id,
        handle -> {
          Optional<Step> step = next(handle, id, from, order);
          step.ifPresent(
              found -> {
                moved[0] = found;
                handle
                    .createUpdate(
                        "update decision set state = :to where study_id = :id and sequence = :n")
                    .bind("to", to)
                    .bind("id", id)
                    .bind("n", found.sequence())
                    .execute();
                changes.append(
                    handle,
                    actor,
                    StudyShelf.subject(id),
                    word + found.stepName(),
                    from,
                    to,
                    found.reason());
              });
          return step.isPresent();
        });
    return Optional.ofNullable(moved[0]);
  }

  private static Optional<Step> next(Handle handle, String id, String state, String order) {
    return handle
        .createQuery(
            "select * from decision where study_id = :id and state = :state order by sequence "
                + order
                + " limit 1")
        .bind("id", id)
        .bind("state", state)
        .map(STEP)
        .findFirst();
  }
}
