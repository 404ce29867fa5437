package org.lonefibre.store.studies;

/**
 * One decision of a person about a study, a step that can be undone.
 *
 * @param sequence its number within the study, from 1
 * @param site the site it is about
 * @param stepName what it does, in a few words
 * @param content the decision, as JSON
 * @param reason why
 * @param actor who
 * @param decidedAt UTC time, ISO 8601
 * @param state {@code active}, {@code undone} (can be redone) or {@code abandoned}
 */
public record Step(
    int sequence,
    String site,
    String stepName,
    String content,
    String reason,
    String actor,
    String decidedAt,
    String state) {}
