package org.lonefibre.report.document;

import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.chain.ChainStep;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.ProgressFact;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.analysis.study.StudyAlternative;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

/**
 * The only place where a code becomes a word, in the language of the report. Facts in the trade's
 * terms, never a diagnosis. The texts stand in {@code texts_en.properties} and its translations.
 *
 * <p>Sentences that other modules wrote come in English: in another language their code chooses the
 * sentence, and the values with their units are carried over.
 *
 * <p>Thread rule: safe.
 */
public final class Words {

  /** The words of the language everything was written in first. */
  public static final Words ENGLISH = new Words(Language.ENGLISH);

  private static final Pattern MICRO = Pattern.compile("(?<=\\d )u(?=[smV]\\b)");
  private static final Pattern VALUE =
      Pattern.compile(
          "[-−+]?\\d[\\d,]*(?:\\.\\d+)? (?:µs|ms|s|Hz|ppm|µV|mV|V|%|°C|mm|µm)(?![A-Za-z])|\\d+ of \\d+");
  private static final Pattern SHARE = Pattern.compile("more than ([\\d.]+) % of signals");

  private final Language language;
  private final Texts texts;

  private Words(Language language) {
    this.language = language;
    this.texts = Texts.of(language);
  }

  /** The words of a language. */
  public static Words of(Language language) {
    return language == Language.ENGLISH ? ENGLISH : new Words(language);
  }

  /** The language. */
  public Language language() {
    return language;
  }

  /**
   * A text of the report, with its places {@code {0}}, {@code {1}} filled in.
   *
   * @throws IllegalStateException if the language has no such text
   */
  public String say(String key, Object... values) {
    return texts.say(key, values);
  }

  /** A finding's code in words. */
  public String finding(FindingCode code) {
    return texts.find("finding." + code.code(), "finding", code.code().replace('-', ' '));
  }

  /** What a finding says. */
  public String sentence(Finding finding) {
    return sentence("finding-says." + finding.code().code(), "finding-says", finding.text());
  }

  /** What a criterion says. */
  public String sentence(Criterion criterion) {
    return sentence("criterion." + criterion.code(), "criterion", criterion.text());
  }

  /** What can be said of a criterion before a study is complete. */
  public String sentence(ProgressFact fact) {
    return sentence("progress." + KebabEnums.word(fact.certain()), "progress", fact.text());
  }

  /** How a study was counted otherwise. */
  public String sentence(StudyAlternative alternative) {
    return sentence("alternative." + alternative.code(), "alternative", alternative.text());
  }

  /** What a step of a chain does to a signal. */
  public String sentence(ChainStep step) {
    return sentence("chain-step." + KebabEnums.word(step.kind()), "chain-step", step.text());
  }

  private String sentence(String key, String other, String text) {
    String typeset = typeset(text);
    Set<String> values = new LinkedHashSet<>();
    Matcher matcher = VALUE.matcher(typeset);
    while (matcher.find()) {
      values.add(matcher.group().replace(" of ", "/"));
    }
    String said = texts.find(key, other, typeset);
    return values.isEmpty() ? said : say("with-values", said, String.join("; ", values));
  }

  /** The rule of a limit set for single signals. */
  public String outlierRule(String rule) {
    Matcher share = SHARE.matcher(rule.strip());
    return share.matches() ? say("rule.share", share.group(1)) : typeset(rule);
  }

  /** Mean or median, or the name of another statistic as it is. */
  public String statistic(String name) {
    return texts.find("statistic." + name, "as-is", name);
  }

  /** The status of the values of a limit set. */
  public String limitStatus(String status) {
    return texts.find("limit-status." + status.replace(' ', '-'), "as-is", status);
  }

  /** The phase of a filter. */
  public String phase(String phase) {
    return texts.find("phase." + phase, "as-is", phase);
  }

  /** What a severity means to the reader. */
  public String severity(Severity severity) {
    return say("severity." + KebabEnums.word(severity));
  }

  /** A grade in words. */
  public String grade(Grade grade) {
    return say("grade." + KebabEnums.word(grade));
  }

  /** A status in words. */
  public String status(PairStatus status) {
    return say("status." + KebabEnums.word(status));
  }

  /** The state of a sweep in words. */
  public String state(SweepState state) {
    return say("state." + KebabEnums.word(state));
  }

  /** The activation in words. */
  public String activation(Activation activation) {
    return say("activation." + KebabEnums.word(activation));
  }

  /** A needle key in words; the name of a needle file as it is. */
  public String needle(@Nullable String needle) {
    return needle == null ? notRecorded() : texts.find("needle." + needle, "as-is", needle);
  }

  /** A muscle as declared. */
  public String muscle(@Nullable String muscle) {
    return muscle == null ? say("muscle-not-recorded") : muscle;
  }

  /** A side in words. */
  public String side(@Nullable Side side) {
    return side == null ? say("side-not-recorded") : say("side." + KebabEnums.word(side));
  }

  /** What stands for a circumstance that nobody declared. */
  public String notRecorded() {
    return say("not-recorded");
  }

  /** Free text as declared, or that nothing was. */
  public String declared(@Nullable String text) {
    return text == null || text.isBlank() ? notRecorded() : text;
  }

  /** A count with its noun, for example {@code 1 signal}, {@code 2 signals}. */
  public String count(int number, String noun) {
    return say("count." + noun + (number == 1 ? ".one" : ".many"), number);
  }

  /** A sentence with a capital at its start. */
  public static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** Text of other modules as it is printed: the micro sign where they write the letter u. */
  public static String typeset(String text) {
    return MICRO.matcher(text).replaceAll("µ");
  }
}
