package org.lonefibre.store.audit;

import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;

/**
 * The record of changes: append-only, each entry with the hash of the one before.
 *
 * <p>Thread rule: safe; entries are appended within the transaction of what they tell of.
 */
public final class ChangeLog {

  /** What the first entry has in place of a hash before it. */
  public static final String ORIGIN = "0".repeat(64);

  private static final RowMapper<Change> ROW =
      (row, context) ->
          new Change(
              row.getLong("sequence"),
              row.getString("changed_at"),
              row.getString("actor"),
              row.getString("subject"),
              row.getString("action"),
              row.getString("from_value"),
              row.getString("to_value"),
              row.getString("reason"),
              row.getString("previous_hash"),
              row.getString("hash"));

  private final Clock clock;

  /** A record kept by a clock. */
  public ChangeLog(Clock clock) {
    this.clock = clock;
  }

  /** The time now, UTC, as entries have it. */
  public String now() {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS).toString();
  }

  /** Appends an entry. */
  public Change append(
      Handle handle,
      String actor,
      String subject,
      String action,
      String from,
      String to,
      String reason) {
    Optional<Change> last =
        handle
            .createQuery("select * from change_record order by sequence desc limit 1")
            .map(ROW)
            .findFirst();
    long sequence = last.map(Change::sequence).orElse(0L) + 1;
    String previous = last.map(Change::hash).orElse(ORIGIN);
    String at = now();
    Change change =
        new Change(
            sequence,
            at,
            actor,
            subject,
            action,
            from,
            to,
            reason,
            previous,
            hash(sequence, at, actor, subject, action, from, to, reason, previous));
    handle
        .createUpdate(
            "insert into change_record (sequence, changed_at, actor, subject, action, from_value,"
                + " to_value, reason, previous_hash, hash) values (:sequence, :changedAt, :actor,"
                + " :subject, :action, :from, :to, :reason, :previousHash, :hash)")
        .bindMethods(change)
        .execute();
    return change;
  }

  /** Entries of one subject, newest first; of all if it is empty. */
  public List<Change> list(Handle handle, String subject, int most) {
    return handle
        .createQuery(
            "select * from change_record where :subject = '' or subject = :subject"
                + " order by sequence desc limit :most")
        .bind("subject", subject)
        .bind("most", most)
        .map(ROW)
        .list();
  }

  /** What is wrong with the chain, a line each; empty if it is whole. */
  public List<String> verify(Handle handle) {
    List<String> wrong = new ArrayList<>();
    String previous = ORIGIN;
    long expected = 1;
    for (Change change :
        handle.createQuery("select * from change_record order by sequence").map(ROW).list()) {
      if (change.sequence() != expected) {
        wrong.add("record of changes: expected entry " + expected + ", found " + change.sequence());
      }
      if (!change.previousHash().equals(previous)) {
        wrong.add(
            "record of changes, entry " + change.sequence() + ": does not follow the one before");
      }
      if (!change.hash().equals(hash(change))) {
        wrong.add("record of changes, entry " + change.sequence() + ": was altered");
      }
      previous = change.hash();
      expected = change.sequence() + 1;
    }
    return wrong;
  }

  private static String hash(Change change) {
    return hash(
        change.sequence(),
        change.changedAt(),
        change.actor(),
        change.subject(),
        change.action(),
        change.from(),
        change.to(),
        change.reason(),
        change.previousHash());
  }

  private static String hash(
      long sequence,
      String at,
      String actor,
      String subject,
      String action,
      String from,
      String to,
      String reason,
      String previous) {
    return Hash.ofParts(
        Long.toString(sequence), at, actor, subject, action, from, to, reason, previous);
  }
}
