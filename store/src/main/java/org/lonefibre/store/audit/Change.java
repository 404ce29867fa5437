package org.lonefibre.store.audit;

/**
 * One entry of the record of changes.
 *
 * @param sequence its number, from 1 without gaps
 * @param changedAt UTC time, ISO 8601
 * @param actor who did it
 * @param subject what was changed, as {@code study ID} or {@code store}
 * @param action what was done
 * @param from what was there; may be empty
 * @param to what is there now; may be empty
 * @param reason why; may be empty where nothing changes a result
 * @param previousHash hash of the entry before
 * @param hash SHA-256 over all of the above, hexadecimal
 */
public record Change(
    long sequence,
    String changedAt,
    String actor,
    String subject,
    String action,
    String from,
    String to,
    String reason,
    String previousHash,
    String hash) {}
