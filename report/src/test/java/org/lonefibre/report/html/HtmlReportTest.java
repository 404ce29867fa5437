package org.lonefibre.report.html;

import static org.assertj.core.api.Assertions.assertThat;
import static org.lonefibre.report.ReportReader.elements;
import static org.lonefibre.report.ReportReader.html;
import static org.lonefibre.report.ReportReader.signalRows;
import static org.lonefibre.report.ReportReader.tree;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.document.PlainText;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.StudyDocument;
import org.w3c.dom.Attr;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** What a reader of the HTML meets, and in which order. */
@Tag("contract")
class HtmlReportTest {

  private static Stream<Examination> samples() {
    return Stream.of(
        ExaminationSample.voluntary(),
        ExaminationSample.stimulated(),
        ExaminationSample.nothingMeasured(),
        ExaminationSample.refusedOnly(),
        ExaminationSample.hostile());
  }

  @ParameterizedTest
  @MethodSource("samples")
  void oneFileWithoutOutsideReferencesAndWithoutScript(Examination examination) {
    String html = html(examination);
    Document tree = tree(html);
    for (String name :
        List.of("script", "link", "img", "iframe", "object", "embed", "base", "a", "image")) {
      assertThat(elements(tree, name)).as(name).isEmpty();
    }
    for (Element element : elements(tree, "*")) {
      for (int i = 0; i < element.getAttributes().getLength(); i++) {
        Attr attribute = (Attr) element.getAttributes().item(i);
        String name = attribute.getName();
        assertThat(name).doesNotStartWith("on").isNotEqualTo("src");
        if (name.endsWith("href")) {
          assertThat(attribute.getValue()).startsWith("#");
        }
        if (!name.startsWith("xmlns") && !name.equals("aria-label")) {
          assertThat(attribute.getValue()).doesNotContain("://");
        }
      }
    }
    for (Element style : elements(tree, "style")) {
      assertThat(style.getTextContent()).doesNotContain("@import", "url(", "://");
    }
  }

  @Test
  void hostileTextIsShownAndNothingElse() {
    Document tree = tree(html(ExaminationSample.hostile()));
    // What the text may hold: the same, with what no document may hold replaced.
    String shown =
        ExaminationSample.HOSTILE.replace('\u0007', '\uFFFD').replace('\u202E', '\uFFFD');
    assertThat(elements(tree, "body").get(0).getTextContent()).contains(shown);
    assertThat(elements(tree, "title").get(0).getTextContent()).contains(shown);
    assertThat(elements(tree, "style")).hasSize(1);
    assertThat(names(tree)).isSubsetOf(names(tree(html(ExaminationSample.voluntary()))));
  }

  @Test
  void claimsComeFirstThenWhatWasLeftOutThenTheRest() {
    Document tree = tree(html(ExaminationSample.voluntary()));
    List<String> headings =
        elements(tree, "h3").stream().map(heading -> heading.getTextContent().strip()).toList();
    assertThat(headings)
        .startsWith(
            "What can be claimed",
            "What was left out, and why",
            "How it was recorded",
            "All signals against the limits",
            "Signal by signal",
            "Table of signals",
            "Limits used");
    List<Element> claims = elements(elements(tree, "ul", "claims").get(0), "li");
    assertThat(claims.get(0).getTextContent()).contains("limit");
    assertThat(claims).hasSizeGreaterThan(3);
  }

  @Test
  void everySignalLeftOutIsNamedWithItsReason() {
    Examination examination = ExaminationSample.voluntary();
    Document tree = tree(html(examination));
    List<Element> rows = elements(elements(tree, "table", "left-out").get(0), "tr");
    List<SignalEntry> out =
        study(examination).signals().stream().filter(s -> !s.inStatistics()).toList();
    assertThat(out).isNotEmpty();
    assertThat(rows).hasSameSizeAs(out);
    for (int i = 0; i < rows.size(); i++) {
      String row = rows.get(i).getTextContent();
      SignalMeasures measures = out.get(i).measures();
      assertThat(row)
          .contains(out.get(i).label())
          .contains(measures.findings().get(0).text().replace(" us", " µs").replace(" uV", " µV"));
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void everySignalHasItsFigureAndItsRow(Examination examination) {
    List<SignalEntry> signals = new ArrayList<>();
    ReportDocument.of(examination).studies().forEach(study -> signals.addAll(study.signals()));
    Document tree = tree(html(examination));
    List<Element> blocks = elements(tree, "div", "signal");
    List<List<String>> rows = signalRows(tree);
    assertThat(blocks).hasSameSizeAs(signals);
    assertThat(rows).hasSameSizeAs(signals);
    for (int i = 0; i < blocks.size(); i++) {
      List<Element> figures = elements(blocks.get(i), "svg");
      assertThat(figures).hasSize(1);
      String label = PlainText.of(signals.get(i).label());
      assertThat(figures.get(0).getAttribute("aria-label")).startsWith(label);
      assertThat(figures.get(0).getElementsByTagName("path").getLength()).isPositive();
      assertThat(rows.get(i).get(0)).isEqualTo(Integer.toString(i + 1));
      assertThat(rows.get(i).get(1)).isEqualTo(label);
    }
  }

  @Test
  void whatCannotBeMeasuredIsSaidWithItsReasonAndNeverANumber() {
    Document tree = tree(html(ExaminationSample.voluntary()));
    List<List<String>> unmeasurable =
        signalRows(tree).stream()
            .filter(row -> row.get(row.size() - 1).equals("unmeasurable"))
            .toList();
    assertThat(unmeasurable).hasSize(1);
    List<String> row = unmeasurable.get(0);
    assertThat(row.get(1)).isEqualTo("site 18");
    assertThat(row.subList(2, 8)).containsOnly("–");
    String block = elements(tree, "div", "signal").get(17).getTextContent();
    assertThat(block).contains("unmeasurable", "9 consecutive differences, 20 are needed.");
    String figure =
        elements(elements(tree, "div", "signal").get(17), "svg").get(0).getAttribute("aria-label");
    assertThat(figure).contains("jitter cannot be told");
  }

  @Test
  void aSiteThatGaveNothingSaysWhy() {
    String text =
        elements(tree(html(ExaminationSample.nothingMeasured())), "body").get(0).getTextContent();
    assertThat(text)
        .contains("Nothing was measured.")
        .contains("No potential stands out of the noise of 4.1 µV in 60.0 s.");
  }

  private static Set<String> names(Document tree) {
    Set<String> names = new TreeSet<>();
    elements(tree, "*").forEach(element -> names.add(element.getTagName()));
    return names;
  }

  private static StudyDocument study(Examination examination) {
    return ReportDocument.of(examination).studies().get(0);
  }
}
