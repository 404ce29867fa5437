package org.lonefibre.store.practice;

import java.util.List;
import org.jdbi.v3.core.Jdbi;
import org.lonefibre.store.audit.ChangeLog;

/**
 * Answers in practice. They are about no study and no person examined, so they have no entry in the
 * record of changes.
 *
 * <p>Thread rule: safe.
 */
public final class PracticeShelf {

  private final Jdbi jdbi;
  private final ChangeLog changes;

  /** The answers of a database. */
  public PracticeShelf(Jdbi jdbi, ChangeLog changes) {
    this.jdbi = jdbi;
    this.changes = changes;
  }

  /**
   * Keeps an answer with the time of now. The first answer to a case stands.
   *
   * @return whether it was the first
   */
  public boolean keep(PracticeAnswer answer) {
    return jdbi.inTransaction(
        handle -> {
          boolean isThere =
              handle
                  .createQuery(
                      "select count(*) from practice_answer where person = :person and round ="
                          + " :round and number = :number")
                  .bind("person", answer.person())
                  .bind("round", answer.round())
                  .bind("number", answer.number())
                  .mapTo(Integer.class)
                  .one()
                  .equals(1);
          if (isThere) {
            return false;
          }
          handle
              .createUpdate(
                  "insert into practice_answer (person, round, number, answered_at, kind, given,"
                      + " expected, score_percent, content) values (:person, :round, :number, :now,"
                      + " :kind, :given, :expected, :score, :content)")
              .bind("person", answer.person())
              .bind("round", answer.round())
              .bind("number", answer.number())
              .bind("now", changes.now())
              .bind("kind", answer.kind())
              .bind("given", answer.given())
              .bind("expected", answer.expected())
              .bind("score", answer.scorePercent())
              .bind("content", answer.content())
              .execute();
          return true;
        });
  }

  /** All answers of a person, in order of rounds and cases. */
  public List<PracticeAnswer> list(String person) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "select * from practice_answer where person = :person order by round, number")
                .bind("person", person)
                .map(
                    (row, context) ->
                        new PracticeAnswer(
                            row.getString("person"),
                            row.getLong("round"),
                            row.getInt("number"),
                            row.getString("answered_at"),
                            row.getString("kind"),
                            row.getString("given"),
                            row.getString("expected"),
                            row.getInt("score_percent"),
                            row.getString("content")))
                .list());
  }
}
