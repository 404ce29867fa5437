package org.lonefibre.store.limits;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LaboratoryLimits;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitChoice;
import org.lonefibre.analysis.reference.LimitConfirmation;
import org.lonefibre.analysis.reference.LimitFile;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.TableFault;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.store.audit.ChangeLog;
import org.lonefibre.store.migration.StoreFault;

/**
 * What a laboratory decided about limits. Nothing is ever deleted: a later entry of the same name
 * takes the place of an earlier one, an empty one withdraws it, and each has its entry in the
 * record of changes.
 *
 * <p>Thread rule: safe.
 */
public final class LimitShelf {

  private static final String FILE = "file";
  private static final String CONFIRMATION = "confirmation";
  private static final String CHOICE = "choice";
  private static final String EVERY_MUSCLE = "every muscle";

  private record Entry(
      String kind, String name, String content, String reason, String actor, String decidedAt) {}

  private final Jdbi jdbi;
  private final ChangeLog changes;

  /** The limits of a database. */
  public LimitShelf(Jdbi jdbi, ChangeLog changes) {
    this.jdbi = jdbi;
    this.changes = changes;
  }

  /**
   * Adds a file of the laboratory's own sets, or puts it in the place of the one of the same name.
   *
   * @throws IllegalArgumentException if another file holds one of its cells
   */
  public void keep(LimitFile file, String reason, String actor) throws StoreFault {
    LaboratoryLimits now = laboratory();
    List<LimitFile> files = new ArrayList<>(now.files());
    files.removeIf(other -> other.name().equals(file.name()));
    files.add(file);
    LimitCatalogue.load(
        LimitSettings.defaults(), new LaboratoryLimits(files, List.of(), List.of()));
    add(FILE, file.name(), file.text(), reason, actor);
  }

  /**
   * Records that rows from memory were read in print.
   *
   * @param muscle muscle key; null for every muscle of the set
   * @param reason what was read: edition, page, table
   * @throws IllegalArgumentException if there are no such rows, or no reason is given
   */
  public void confirm(String set, @Nullable String muscle, String reason, String actor) {
    String values = LimitCatalogue.load(LimitSettings.defaults()).confirmable(set, muscle);
    LimitConfirmation decision =
        new LimitConfirmation(set, muscle, actor, changes.now(), reason, values);
    LimitCatalogue.load(
        LimitSettings.defaults(), new LaboratoryLimits(List.of(), List.of(decision), List.of()));
    add(CONFIRMATION, confirmation(set, muscle), values, reason, actor);
  }

  /** Takes a confirmation back: the rows are off again. */
  public void withdrawConfirmation(
      String set, @Nullable String muscle, String reason, String actor) {
    add(CONFIRMATION, confirmation(set, muscle), "", reason, actor);
  }

  private static String confirmation(String set, @Nullable String muscle) {
    return set + "/" + (muscle == null ? EVERY_MUSCLE : muscle);
  }

  /** Records which set is used where several fit. */
  public void choose(LimitChoice choice, String reason, String actor) {
    String name =
        String.join(
            "/",
            choice.muscle(),
            choice.needle(),
            choice.activation().name().toLowerCase(Locale.ROOT));
    add(CHOICE, name, choice.set(), reason, actor);
  }

  /** Withdraws a file of the laboratory's own sets. */
  public void withdrawFile(String name, String reason, String actor) {
    add(FILE, name, "", reason, actor);
  }

  private void add(String kind, String name, String content, String reason, String actor) {
    jdbi.useTransaction(
        handle -> {
          String before =
              handle
                  .createQuery(
                      "select content from limit_entry where kind = :kind and name = :name"
                          + " order by sequence desc limit 1")
                  .bind("kind", kind)
                  .bind("name", name)
                  .mapTo(String.class)
                  .findFirst()
                  .orElse("");
          handle
              .createUpdate(
                  "insert into limit_entry (sequence, kind, name, content, reason, actor,"
                      + " decided_at) values ((select coalesce(max(sequence), 0) + 1 from"
                      + " limit_entry), :kind, :name, :content, :reason, :actor, :now)")
              .bind("kind", kind)
              .bind("name", name)
              .bind("content", content)
              .bind("reason", reason)
              .bind("actor", actor)
              .bind("now", changes.now())
              .execute();
          changes.append(
              handle, actor, "limits", "limits: " + kind + " " + name, before, content, reason);
        });
  }

  /**
   * What holds now.
   *
   * @throws StoreFault if a kept file is no longer one
   */
  public LaboratoryLimits laboratory() throws StoreFault {
    List<Entry> all =
        jdbi.withHandle(
            handle ->
                handle
                    .createQuery("select * from limit_entry order by sequence")
                    .map(
                        (row, context) ->
                            new Entry(
                                row.getString("kind"),
                                row.getString("name"),
                                row.getString("content"),
                                row.getString("reason"),
                                row.getString("actor"),
                                row.getString("decided_at")))
                    .list());
    Map<String, Entry> newest = new LinkedHashMap<>();
    for (Entry entry : all) {
      newest.put(entry.kind() + "/" + entry.name(), entry);
    }
    List<LimitFile> files = new ArrayList<>();
    List<LimitConfirmation> confirmations = new ArrayList<>();
    List<LimitChoice> choices = new ArrayList<>();
    for (Entry entry : newest.values()) {
      if (entry.content().isEmpty()) {
        continue;
      }
      String[] name = entry.name().split("/", -1);
      switch (entry.kind()) {
        case FILE -> files.add(file(entry));
        case CONFIRMATION ->
            confirmations.add(
                new LimitConfirmation(
                    name[0],
                    name[1].equals(EVERY_MUSCLE) ? null : name[1],
                    entry.actor(),
                    entry.decidedAt().substring(0, 10),
                    entry.reason(),
                    entry.content()));
        default ->
            choices.add(
                new LimitChoice(
                    name[0],
                    name[1],
                    Activation.valueOf(name[2].toUpperCase(Locale.ROOT)),
                    entry.content()));
      }
    }
    return new LaboratoryLimits(files, confirmations, choices);
  }

  private static LimitFile file(Entry entry) throws StoreFault {
    try {
      return LimitFile.of(entry.name(), entry.content());
    } catch (TableFault e) {
      throw new StoreFault(
          "limits", "a table as it was kept", String.valueOf(e.getMessage()), "add it again");
    }
  }
}
