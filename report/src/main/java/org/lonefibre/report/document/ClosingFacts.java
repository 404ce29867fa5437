package org.lonefibre.report.document;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Puts what people added into words. */
final class ClosingFacts {

  private ClosingFacts() {}

  /** Comment and conclusion; a kept study without them says so, an automatic result is silent. */
  static List<Fact> words(Closing closing) {
    if (closing.state() == null && closing.comment() == null && closing.conclusion() == null) {
      return List.of();
    }
    return List.of(
        Fact.of("Comment", written(closing.comment())),
        Fact.of("Conclusion", written(closing.conclusion())));
  }

  static List<Fact> seal(Closing.@Nullable Seal seal) {
    if (seal == null) {
      return List.of();
    }
    return List.of(
        Fact.of("Signed by", seal.signer()),
        Fact.of("Signed at", seal.signedAt() + " UTC, version " + seal.version()),
        Fact.of("Meaning", seal.meaning()),
        Fact.of(
            "State",
            seal.changedSince()
                ? "the study was changed after this version was signed: the seal does not cover what"
                    + " is printed here"
                : "nothing was changed since"),
        Fact.of("Sealed text, SHA-256", seal.sha256()),
        Fact.of("Seal, Ed25519", seal.value()),
        Fact.of("What it is", "an integrity seal, not a qualified electronic signature"));
  }

  private static String written(@Nullable String text) {
    return text == null || text.isBlank() ? "not written" : text;
  }
}
