package org.lonefibre.store.studies;

import org.jspecify.annotations.Nullable;

/**
 * A study in the list.
 *
 * @param id its identity, made by the store
 * @param title its title
 * @param subjectCode code of the person, never a name; null if none
 * @param provenance {@code demo} for invented data, else {@code examination}
 * @param createdAt UTC time, ISO 8601
 * @param changedAt UTC time of the last change
 * @param revision counts its changes
 * @param state {@code open}, {@code signed}, or {@code amended} after a change to a signed one
 */
public record KeptStudy(
    String id,
    String title,
    @Nullable String subjectCode,
    String provenance,
    String createdAt,
    String changedAt,
    long revision,
    String state) {}
