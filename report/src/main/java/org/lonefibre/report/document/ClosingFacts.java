package org.lonefibre.report.document;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Puts what people added into words. */
final class ClosingFacts {

  private ClosingFacts() {}

  /** Comment and conclusion; a kept study without them says so, an automatic result is silent. */
  static List<Fact> words(Closing closing, Words words) {
    if (closing.state() == null && closing.comment() == null && closing.conclusion() == null) {
      return List.of();
    }
    return List.of(
        Fact.of(words.say("closing.comment"), written(closing.comment(), words)),
        Fact.of(words.say("closing.conclusion"), written(closing.conclusion(), words)));
  }

  static List<Fact> seal(Closing.@Nullable Seal seal, Words words) {
    if (seal == null) {
      return List.of();
    }
    return List.of(
        Fact.of(words.say("closing.signed-by"), seal.signer()),
        Fact.of(
            words.say("closing.signed-at"),
            words.say("closing.signed-at.text", plain(seal.signedAt()), seal.version())),
        Fact.of(words.say("closing.meaning"), seal.meaning()),
        Fact.of(
            words.say("closing.state"),
            seal.changedSince() ? words.say("closing.changed") : words.say("closing.unchanged")),
        Fact.of(words.say("closing.sealed-text"), seal.sha256()),
        Fact.of(words.say("closing.seal"), seal.value()),
        Fact.of(words.say("closing.what"), words.say("closing.what.text")));
  }

  /** To the second, without the letters of the standard. */
  private static String plain(String utc) {
    return utc.replace('T', ' ').replaceFirst("(\\.\\d+)?Z?$", "");
  }

  private static String written(@Nullable String text, Words words) {
    return text == null || text.isBlank() ? words.say("closing.not-written") : text;
  }
}
