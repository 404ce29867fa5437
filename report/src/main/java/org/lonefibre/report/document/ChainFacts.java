package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.chain.ChainResult;
import org.lonefibre.analysis.chain.ChainStep;
import org.lonefibre.analysis.chain.KeptChain;
import org.lonefibre.analysis.study.Examination;

/** The test of the laboratory's own machine and export in words. */
final class ChainFacts {

  private ChainFacts() {}

  /** All that was found; empty if no test was named. */
  static List<Fact> of(Examination examination, Words words) {
    KeptChain kept = examination.chain();
    if (kept == null) {
      return List.of();
    }
    ChainResult result = kept.result();
    List<Fact> facts = new ArrayList<>();
    facts.add(
        Fact.of(
            words.say("chain.tested"),
            words.say("chain.tested.text", kept.testedOn(), kept.file(), kept.channel())));
    facts.add(
        Fact.of(
            words.say("chain.rate"),
            words.say(
                "chain.rate.text",
                Rounded.frequency(result.trueRateHz()),
                Rounded.frequency(result.declaredRateHz()))));
    facts.add(
        Fact.of(
            words.say("chain.high-pass"),
            corner(result.highPassHz(), result.highPassOrder(), words)));
    facts.add(
        Fact.of(
            words.say("chain.low-pass"), corner(result.lowPassHz(), result.lowPassOrder(), words)));
    facts.add(Fact.of(words.say("chain.noise"), noise(result, words)));
    facts.add(Fact.of(words.say("chain.smallest"), smallest(result, words)));
    facts.add(
        Fact.of(
            words.say("chain.returned"),
            words.say(
                "chain.returned.text",
                Rounded.decimals(result.sentJitterUs(), 2),
                Rounded.decimals(result.foundJitterUs(), 2))));
    if (result.steps().isEmpty()) {
      facts.add(Fact.of(words.say("chain.steps"), words.say("chain.steps.none")));
    }
    for (ChainStep step : result.steps()) {
      facts.add(Fact.of(words.say("chain.steps"), words.sentence(step)));
    }
    long other =
        examination.studies().stream()
            .flatMap(study -> study.recordings().stream())
            .filter(r -> Math.abs(r.samplingRateHz() / result.declaredRateHz() - 1) > 1e-3)
            .count();
    if (other > 0) {
      facts.add(Fact.of(words.say("chain.holds"), words.say("chain.holds.not", other)));
    }
    return facts;
  }

  /** The test in one line for the technique. */
  static String line(@Nullable KeptChain kept, Words words) {
    if (kept == null) {
      return words.say("chain.none");
    }
    int steps = kept.result().steps().size();
    return words.say(
        "chain.line",
        kept.testedOn(),
        smallest(kept.result(), words),
        steps == 0 ? words.say("chain.steps.none") : words.count(steps, "chain-step"));
  }

  private static String smallest(ChainResult result, Words words) {
    return words.say(
        "chain.smallest.text",
        Rounded.decimals(result.smallestJitterUs(), 2),
        Rounded.decimals(result.smallestJitterLowUs(), 2),
        Rounded.decimals(result.smallestJitterHighUs(), 2));
  }

  private static String corner(@Nullable Double cornerHz, int order, Words words) {
    if (cornerHz == null) {
      return words.say("chain.corner.none");
    }
    return order == 0
        ? words.say("chain.corner.unknown", Rounded.frequency(cornerHz))
        : words.say("chain.corner", Rounded.frequency(cornerHz), order);
  }

  private static String noise(ChainResult result, Words words) {
    Double size = result.pulseUv();
    String ratio = String.format(Locale.ROOT, "%.3f %%", 100 * result.noiseRatio());
    return size == null
        ? words.say("chain.noise.ratio", ratio)
        : words.say(
            "chain.noise.voltage",
            Rounded.decimals(size * result.noiseRatio(), 2),
            Rounded.decimals(size, 0),
            Rounded.decimals(size * result.stepRatio(), 3));
  }
}
