package org.lonefibre.store.studies;

/**
 * A signed state of a study; it stays whatever is changed later.
 *
 * @param version its number, from 1
 * @param content the study as canonical JSON
 * @param sha256 hash of the content
 * @param seal Ed25519 seal of the content, base 64
 * @param publicKey key it can be checked with, base 64
 * @param signer who signed
 * @param meaning what the signature means
 * @param signedAt UTC time, ISO 8601
 * @param revision revision of the study that was signed
 */
public record SignedVersion(
    int version,
    String content,
    String sha256,
    String seal,
    String publicKey,
    String signer,
    String meaning,
    String signedAt,
    long revision) {}
