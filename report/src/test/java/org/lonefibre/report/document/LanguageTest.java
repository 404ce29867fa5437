package org.lonefibre.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.ReportReader;
import org.lonefibre.report.html.HtmlReport;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/** One report in two languages: no text is wired in, and no number differs. */
class LanguageTest {

  private static final Pattern PLACE = Pattern.compile("\\{\\d}");
  private static final Pattern NUMBER = Pattern.compile("\\d+(?:\\.\\d+)?");

  /** Words that no German sentence has and hardly an English one lacks. */
  private static final Pattern ENGLISH =
      Pattern.compile(
          "(?i)\\b(the|of|is|are|and|with|not|were|no|each|from|this|its|to|by|for|below|above)\\b");

  private static final Closing SIGNED =
      new Closing(
          "Erfundene Studie",
          Closing.State.AMENDED,
          "Stelle 3 ausgelassen",
          "Zweimal gesehen.",
          "Erfundene Beurteilung.",
          new Closing.Seal(
              1, true, "R. Example", "2026-03-15T08:00:00Z", "geprüft", "ab".repeat(32), "AAAA"));

  @Test
  void everyLanguageHasTheSameKeysWithTheSamePlaces() {
    Texts english = Texts.of(Language.ENGLISH);
    Set<String> keys = english.keys();
    assertThat(keys).hasSizeGreaterThan(300);
    for (Language language : Language.values()) {
      Texts texts = Texts.of(language);
      assertThat(texts.keys()).as(language.name()).isEqualTo(keys);
      for (String key : keys) {
        if (!isFromOutside(key)) {
          assertThat(places(texts, key)).as(key).isEqualTo(places(english, key));
        }
        assertThat(raw(texts, key)).as(key).isNotBlank();
      }
    }
  }

  @ParameterizedTest
  @EnumSource
  void everyCodeHasItsWord(Language language) {
    Words words = Words.of(language);
    Set<String> keys = Texts.of(language).keys();
    for (FindingCode code : FindingCode.values()) {
      assertThat(keys).contains("finding." + code.code(), "finding-says." + code.code());
    }
    for (Function<Words, String> word :
        Stream.of(
                words(Grade.values(), Words::grade),
                words(SweepState.values(), Words::state),
                words(PairStatus.values(), Words::status),
                words(Activation.values(), Words::activation),
                words(Side.values(), Words::side),
                words(Severity.values(), Words::severity))
            .flatMap(List::stream)
            .toList()) {
      assertThat(word.apply(words)).isNotBlank();
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void noEnglishSentenceIsLeftInTheGermanReport(Examination examination) {
    String text = text(examination, Language.GERMAN);
    List<String> left = new ArrayList<>();
    for (String line : text.split("\n")) {
      Matcher matcher = ENGLISH.matcher(line);
      if (matcher.find()) {
        left.add(matcher.group() + ": " + line);
      }
    }
    assertThat(left).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theSearchForEnglishSeesIt(Examination examination) {
    assertThat(ENGLISH.matcher(text(examination, Language.ENGLISH)).find()).isTrue();
  }

  @ParameterizedTest
  @MethodSource("samples")
  void everyNumberOfTheTableOfSignalsIsTheSameInEveryLanguage(Examination examination) {
    assertThat(numbers(examination, Language.GERMAN))
        .isEqualTo(numbers(examination, Language.ENGLISH));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theReportSaysWhichLanguageItIsIn(Examination examination) {
    Element root = tree(examination, Language.GERMAN).getDocumentElement();
    assertThat(root.getAttribute("lang")).isEqualTo("de");
  }

  static List<Examination> samples() {
    return List.of(
        ExaminationSample.voluntary(),
        ExaminationSample.stimulated(),
        ExaminationSample.nothingMeasured(),
        ExaminationSample.refusedOnly());
  }

  private static List<String> numbers(Examination examination, Language language) {
    List<String> numbers = new ArrayList<>();
    ReportReader.signalRows(tree(examination, language))
        .forEach(
            row ->
                row.forEach(
                    cell -> {
                      Matcher matcher = NUMBER.matcher(cell);
                      while (matcher.find()) {
                        numbers.add(matcher.group());
                      }
                    }));
    return numbers;
  }

  private static Document tree(Examination examination, Language language) {
    return ReportReader.tree(
        new HtmlReport().render(ReportDocument.of(examination, SIGNED, language)));
  }

  /** A line a piece of text, what people declared or sources wrote left out. */
  private static String text(Examination examination, Language language) {
    List<String> declared =
        Stream.of(
                examination.visit().examiner(),
                examination.visit().medication(),
                examination.visit().note())
            .filter(java.util.Objects::nonNull)
            .toList();
    StringBuilder text = new StringBuilder();
    collect(tree(examination, language).getDocumentElement(), language, text);
    String all = text.toString();
    for (String words : declared) {
      all = all.replace(words, "");
    }
    for (var study : examination.studies()) {
      LimitsUsed limits = study.summary().limits();
      if (limits != null) {
        all = all.replace(limits.set(), "");
      }
    }
    return all;
  }

  private static void collect(Node node, Language language, StringBuilder text) {
    if (node instanceof Element element) {
      boolean quoted =
          element.hasAttribute("lang") && !element.getAttribute("lang").equals(language.tag());
      if (quoted || List.of("style", "meta").contains(element.getTagName())) {
        return;
      }
      for (String attribute : List.of("aria-label", "title", "alt")) {
        text.append(element.getAttribute(attribute)).append('\n');
      }
    } else if (node.getNodeType() == Node.TEXT_NODE) {
      text.append(node.getTextContent()).append('\n');
    }
    for (Node child = node.getFirstChild(); child != null; child = child.getNextSibling()) {
      collect(child, language, text);
    }
  }

  /** In another language these carry no English text over. */
  private static boolean isFromOutside(String key) {
    return key.startsWith("finding-says")
        || key.startsWith("criterion")
        || key.startsWith("finding")
        || key.startsWith("progress")
        || key.startsWith("alternative")
        || key.startsWith("chain-step")
        || key.equals("with-values");
  }

  private static Set<String> places(Texts texts, String key) {
    Set<String> places = new TreeSet<>();
    Matcher matcher = PLACE.matcher(raw(texts, key));
    while (matcher.find()) {
      places.add(matcher.group());
    }
    return places;
  }

  private static String raw(Texts texts, String key) {
    return texts.say(key, "{0}", "{1}", "{2}", "{3}", "{4}", "{5}", "{6}");
  }

  private static <T> List<Function<Words, String>> words(
      T[] values, java.util.function.BiFunction<Words, T, String> word) {
    return Arrays.stream(values).map(v -> (Function<Words, String>) w -> word.apply(w, v)).toList();
  }
}
