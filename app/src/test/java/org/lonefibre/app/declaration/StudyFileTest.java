package org.lonefibre.app.declaration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.app.terminal.InputFault;

@Tag("contract")
final class StudyFileTest {

  private static final String STUDY =
      """
      subject: {code: L-0172, ageYears: 52}
      visit:
        date: 2026-03-02
        examiner: "007"
        temperatureDegC: 33.5
        medication: none
      studies:
        - muscle: EDC
          side: right
          needle: single-fibre
          activation: voluntary
          recordings:
            - {file: sub/one.edf}
            - file: two.edf
              site: "2"
              channel: 1
              stimulusChannel: Trigger
              startS: 12
              endS: 40.5
      """;

  @TempDir private Path folder = Path.of("");

  private Path file = Path.of("");

  @BeforeEach
  void nameTheFile() {
    file = folder.resolve("visit.yaml");
  }

  private DeclaredExamination read(String text) throws IOException {
    Files.writeString(file, text);
    return StudyFile.read(file);
  }

  @Test
  void everythingThatIsWrittenIsRead() throws IOException {
    DeclaredExamination examination = read(STUDY);
    assertThat(examination.subject().code()).isEqualTo("L-0172");
    assertThat(examination.subject().ageYears()).isEqualTo(52.0);
    assertThat(examination.visit().date()).isEqualTo("2026-03-02");
    assertThat(examination.visit().examiner()).isEqualTo("007");
    assertThat(examination.visit().temperatureDegC()).isEqualTo(33.5);
    assertThat(examination.visit().note()).isNull();
    DeclaredStudy study = examination.studies().get(0);
    assertThat(study.muscle()).isEqualTo("extensor digitorum");
    assertThat(study.side()).isEqualTo(Side.RIGHT);
    assertThat(study.needle()).isEqualTo("single-fibre");
    assertThat(study.activation()).isEqualTo(Activation.VOLUNTARY);
    assertThat(study.limits()).isNull();
    DeclaredRecording second = study.recordings().get(1);
    assertThat(second.site()).isEqualTo("2");
    assertThat(second.channel()).isEqualTo("1");
    assertThat(second.stimulusChannel()).isEqualTo("Trigger");
    assertThat(second.startS()).isEqualTo(12.0);
    assertThat(second.endS()).isEqualTo(40.5);
    assertThat(second.isCut()).isTrue();
    assertThat(study.recordings().get(0).isCut()).isFalse();
  }

  @Test
  void filesAreFoundFromTheFolderOfTheStudyFile() throws IOException {
    assertThat(read(STUDY).studies().get(0).recordings().get(0).path())
        .isEqualTo(folder.resolve("sub").resolve("one.edf").toAbsolutePath());
  }

  @Test
  void aStudyWithNothingButFilesIsEnough() throws IOException {
    DeclaredExamination examination = read("studies: [{recordings: [{file: a.edf}]}]");
    assertThat(examination.subject().code()).isNull();
    assertThat(examination.studies().get(0).muscle()).isNull();
    assertThat(examination.studies().get(0).activation()).isNull();
  }

  @Test
  void aByteOrderMarkDoesNotMatter() throws IOException {
    assertThat(read("\uFEFF" + STUDY).studies()).hasSize(1);
  }

  @ParameterizedTest(name = "{0} becomes {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          ageYears: 52          | age: 52              | subject.age, line 1   | ageYears
          ageYears: 52          | ageYears: fifty      | subject.ageYears      | fifty
          ageYears: 52          | ageYears: 520        | subject.ageYears      | 520
          ageYears: 52          | ageYears: .nan       | subject.ageYears      | nan
          code: L-0172          | code: Invented Name  | subject.code          | never a name
          muscle: EDC           | muscle: detloid      | studies[1].muscle, line 8 | deltoid
          muscle: EDC           | musle: EDC           | studies[1].musle, line 8 | muscle
          side: right           | side: rigth          | studies[1].side, line 9 | right
          needle: single-fibre  | needle: singlefibre  | studies[1].needle, line 10 | single-fibre
          activation: voluntary | activation: maximal  | studies[1].activation, line 11 | stimulated
          activation: voluntary | limits: none-such    | studies[1].limits, line 11 | a limit set
          startS: 12            | startS: 41           | studies[1].recordings[2].endS, line 19 | after
          startS: 12            | startS: -1           | studies[1].recordings[2].startS, line 18 | -1
          file: two.edf         | fil: two.edf         | studies[1].recordings[2].fil, line 14 | file
          side: right           | side: [right]        | studies[1].side, line 9 | a list
          medication: none      | date: 2026-03-03     | line 6                | once
          medication: none      | medication: &x y     | visit                 | none of these
          """)
  void aFaultNamesKeyLineAndWhatIsMeant(String old, String changed, String place, String word)
      throws IOException {
    if (word.equals("none of these")) {
      assertThat(read(STUDY.replace(old, changed)).visit().medication()).isEqualTo("y");
      return;
    }
    assertThatThrownBy(() -> read(STUDY.replace(old, changed)))
        .isInstanceOf(InputFault.class)
        .hasMessageStartingWith("visit.yaml: ")
        .hasMessageContaining(place)
        .hasMessageContaining(word)
        .hasMessageContaining("expected ")
        .hasMessageContaining(", found ")
        .hasMessageNotContaining("\n");
  }

  @Test
  void whatIsNotYamlIsRefusedWithItsLine() {
    assertThatThrownBy(() -> read("studies:\n  - muscle: [deltoid\n"))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("line 2")
        .hasMessageContaining("expected ',' or ']'")
        .hasMessageNotContaining("\n");
  }

  @Test
  void emptyFilesListsAndOddBytesAreRefused() throws IOException {
    assertThatThrownBy(() -> read("")).hasMessageContaining("an empty file");
    assertThatThrownBy(() -> read("- a\n")).hasMessageContaining("a list");
    assertThatThrownBy(() -> read("studies: []\n")).hasMessageContaining("an empty list");
    assertThatThrownBy(() -> read("studies:\n")).hasMessageContaining("studies, line 1");
    assertThatThrownBy(() -> read("studies: [{recordings: [{}]}]"))
        .hasMessageContaining("studies[1].recordings[1].file");
    Files.write(file, "subject: {code: \u00c5}".getBytes(StandardCharsets.ISO_8859_1));
    assertThatThrownBy(() -> StudyFile.read(file)).hasMessageContaining("UTF-8");
    assertThatThrownBy(() -> StudyFile.read(folder)).hasMessageContaining("a folder");
  }

  @Test
  void aliasesAndDepthCannotMakeASmallFileGrow() {
    assertThatThrownBy(() -> read("a: &x 1\nstudies: *x\n")).hasMessageContaining("an alias");
    assertThatThrownBy(() -> read("studies: " + "[".repeat(60) + "]".repeat(60)))
        .isInstanceOf(InputFault.class);
  }

  @Test
  void aNeedleFileGivesItsNameAsNeedle() throws IOException {
    Files.writeString(folder.resolve("mine.yaml"), "name: mine\n");
    DeclaredExamination examination =
        read(STUDY.replace("needle: single-fibre", "needle: mine.yaml"));
    assertThat(Objects.requireNonNull(examination.studies().get(0).needle())).isEqualTo("mine");
  }
}
