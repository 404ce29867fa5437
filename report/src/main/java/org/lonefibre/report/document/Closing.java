package org.lonefibre.report.document;

import org.jspecify.annotations.Nullable;

/**
 * What people added to a result: the physician's words, decisions, and the seal.
 *
 * @param title title of the kept study; null if it is not kept
 * @param state how it stands; null if it is not kept
 * @param decisions decisions by a person, in words; null if the result is the automatic one
 * @param comment the physician's comment; null if none was written
 * @param conclusion the physician's conclusion; null if none was written
 * @param seal the seal of the signed version; null if it is not signed
 */
public record Closing(
    @Nullable String title,
    @Nullable State state,
    @Nullable String decisions,
    @Nullable String comment,
    @Nullable String conclusion,
    @Nullable Seal seal) {

  /** An automatic result that nobody has seen. */
  public static final Closing NONE = new Closing(null, null, null, null, null, null);

  /** How a kept study stands. */
  public enum State {
    /** Nobody has signed it. */
    OPEN,
    /** Signed as it is. */
    SIGNED,
    /** Changed after it was signed. */
    AMENDED
  }

  /** How it stands in words, for example {@code signed, version 1}; empty if it is not kept. */
  public String standing(Words words) {
    return state == null
        ? ""
        : words.say("state-of-study." + KebabEnums.word(state), seal == null ? 0 : seal.version());
  }

  /**
   * An integrity seal over the text of a signed study: it is no qualified electronic signature.
   *
   * @param version number of the signed version, from 1
   * @param changedSince whether the study was changed after it was signed
   * @param signer who signed
   * @param signedAt UTC time, ISO 8601
   * @param meaning what the signature means
   * @param sha256 hash of the sealed text, hexadecimal
   * @param value Ed25519 signature of the sealed text, base 64
   */
  public record Seal(
      int version,
      boolean changedSince,
      String signer,
      String signedAt,
      String meaning,
      String sha256,
      String value) {}
}
