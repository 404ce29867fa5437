package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

class LaboratoryLimitsTest {

  private static final String HEAD =
      "set_id,set_name,muscle,needles,activation,centre_statistic,centre_limit_us,"
          + "individual_limit_us,source\n";
  private static final String LINE =
      "own-lab-1,our volunteers,ED,concentric-small,voluntary,mean,30,42,own controls 2024\n";

  @Test
  void aSetOfTheLaboratoryIsUsedWithItsSource() throws TableFault {
    LimitCatalogue limits = with(LimitFile.of("own.csv", HEAD + LINE));
    StudySummary result = judge(limits, study("extensor digitorum", "own-lab-1"));
    assertThat(result.limitsSet()).isEqualTo("own-lab-1");
    assertThat(result.status()).isEqualTo("the laboratory's own");
    assertThat(limits.listSets()).contains("own-lab-1", "sf-voluntary-1992");
  }

  @Test
  void whereSeveralFitOneIsPickedOnceAndTheOthersAreNamed() throws TableFault {
    LimitFile file = LimitFile.of("own.csv", HEAD + LINE);
    StudyDeclaration open = study("ED", null);
    LimitMatch unpicked = with(file).match(open);
    assertThat(unpicked).isInstanceOf(LimitMatch.Unmatched.class);
    LimitCatalogue picked =
        LimitCatalogue.load(
            LimitSettings.defaults(),
            new LaboratoryLimits(
                List.of(file),
                List.of(),
                List.of(
                    new LimitChoice(
                        "extensor digitorum",
                        "concentric-small",
                        Activation.VOLUNTARY,
                        "own-lab-1"))));
    LimitMatch match = picked.match(open);
    assertThat(match).isInstanceOf(LimitMatch.Matched.class);
    Finding finding =
        match.findings().stream()
            .filter(f -> f.code() == FindingCode.SEVERAL_LIMITS)
            .findFirst()
            .orElseThrow();
    assertThat(finding.severity()).isEqualTo(Severity.NOTE);
    assertThat(finding.text()).contains("own-lab-1", "cn-multicentre-2016", "cn-japan-2012");
  }

  @Test
  void everySetThatHoldsSaysWhatItWouldAndThoseOffSayNothing() {
    Signals signals = new Signals().pairs(17, 20).pairs(3, 44.5);
    StudyDeclaration study =
        new StudyDeclaration(
            "frontalis",
            45.0,
            "concentric-small",
            Activation.VOLUNTARY,
            StudyDeclaration.Origin.DECLARED,
            null,
            1000.0);
    List<LimitComparison> rows =
        new StudyJudge(LimitCatalogue.load(LimitSettings.defaults()), StudySettings.defaults())
            .compare(study, signals.sites());
    assertThat(rows)
        .extracting(row -> row.limits().set(), LimitComparison::verdict)
        .contains(
            org.assertj.core.groups.Tuple.tuple(
                "cn-frontalis-voluntary-2013", Verdict.LIMIT_EXCEEDED),
            org.assertj.core.groups.Tuple.tuple("cn-japan-2012", Verdict.NO_LIMIT_EXCEEDED));
    StudyDeclaration tongue =
        new StudyDeclaration(
            "deltoid",
            45.0,
            "single-fibre",
            Activation.VOLUNTARY,
            StudyDeclaration.Origin.DECLARED,
            null,
            500.0);
    List<LimitComparison> off =
        new StudyJudge(LimitCatalogue.load(LimitSettings.defaults()), StudySettings.defaults())
            .compare(tongue, signals.sites());
    assertThat(off).singleElement().satisfies(row -> assertThat(row.use()).startsWith("off"));
    assertThat(off.get(0).verdict()).isEqualTo(Verdict.NOT_COMPARED);
  }

  @Test
  void aConfirmationTurnsOnWhatItNamesAndShowsWhoReadIt() {
    LimitCatalogue plain = LimitCatalogue.load(LimitSettings.defaults());
    String values = plain.confirmable("sf-voluntary-1992", "deltoid");
    assertThat(values).contains("deltoid 10: 32.9, 44.4");
    LimitCatalogue confirmed = confirmed("deltoid", values);
    LimitMatch match = confirmed.match(fibre("deltoid"));
    assertThat(match).isInstanceOf(LimitMatch.Matched.class);
    assertThat(((LimitMatch.Matched) match).row().statusWords())
        .isEqualTo("from memory, confirmed by A. Reader on 2026-02-03: reprint, table 2");
    assertThat(confirmed.match(fibre("tibialis anterior")))
        .isInstanceOf(LimitMatch.Unmatched.class);
    assertThat(confirmed("deltoid", "deltoid 10: 32.0, 44.4; ").match(fibre("deltoid")))
        .as("other values were confirmed than the program carries")
        .isInstanceOf(LimitMatch.Unmatched.class);
    assertThatIllegalArgumentException().isThrownBy(() -> confirmed("frontalis", null));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new LimitConfirmation("s", null, "", "", "read", null));
  }

  /** Columns as in LINE; the fault names the line, the column and what to do. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "mean,30,42|mean,0.3,42|line 3, centre_limit_us: expected a number of 1 to 1000 us, found 0.3",
        "mean,30,42|mean,42,30|line 3, individual_limit_us: expected a limit not below",
        "mean,30,42|mean,,42|line 3, centre_limit_us: expected a limit, found nothing",
        "mean,30,42|mean,thirty,42|line 3, centre_limit_us: expected a number of 1 to 1000 us, found thirty",
        "mean,30,42|mode,30,42|line 3, centre_statistic: expected one of mean, median, none",
        "ED|nosuch|line 3, muscle: expected a muscle of the table of muscles, found nosuch",
        "own-lab-1|lab-1|line 3, set_id: expected own-",
        "concentric-small|concentric|line 3, needles: expected some of",
        "own controls 2024|''|line 3, source: expected a value, found nothing",
        "voluntary|by will|line 3, activation: expected one of voluntary, stimulated",
        "x|x|line 3: expected each cell once, found own-lab-1, extensor digitorum",
      })
  void aFileWithAFaultIsRefusedWithItsLine(String what, String by, String message) {
    String second = LINE.replace(what, by);
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> LimitFile.of("own.csv", HEAD + LINE + second))
        .withMessageStartingWith("own.csv: ")
        .withMessageContaining(message)
        .withMessageContaining("; ");
  }

  @Test
  void aColumnThatIsNotKnownAndOneThatIsMissingAreNamed() {
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> LimitFile.of("own.csv", "set,x\n1,2\n"))
        .withMessageContaining("found set");
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> LimitFile.of("own.csv", "set_id\nown-a\n"))
        .withMessageContaining("a column set_name");
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> LimitFile.of("own.csv", ""))
        .withMessageContaining("a header and a line");
  }

  private static LimitCatalogue with(LimitFile file) {
    return LimitCatalogue.load(
        LimitSettings.defaults(), new LaboratoryLimits(List.of(file), List.of(), List.of()));
  }

  private static LimitCatalogue confirmed(String muscle, @Nullable String values) {
    return LimitCatalogue.load(
        LimitSettings.defaults(),
        new LaboratoryLimits(
            List.of(),
            List.of(
                new LimitConfirmation(
                    "sf-voluntary-1992",
                    muscle,
                    "A. Reader",
                    "2026-02-03",
                    "reprint, table 2",
                    values)),
            List.of()));
  }

  private static StudyDeclaration study(String muscle, @Nullable String set) {
    return new StudyDeclaration(
        muscle,
        45.0,
        "concentric-small",
        Activation.VOLUNTARY,
        StudyDeclaration.Origin.DECLARED,
        set,
        1000.0);
  }

  private static StudyDeclaration fibre(String muscle) {
    return new StudyDeclaration(
        muscle,
        45.0,
        "single-fibre",
        Activation.VOLUNTARY,
        StudyDeclaration.Origin.DECLARED,
        null,
        500.0);
  }

  private record StudySummary(String limitsSet, String status) {}

  private static StudySummary judge(LimitCatalogue limits, StudyDeclaration study) {
    var used =
        java.util.Objects.requireNonNull(
            new StudyJudge(limits, StudySettings.defaults())
                .summarise(study, new Signals().pairs(20, 20).sites())
                .limits());
    return new StudySummary(used.set(), used.status());
  }
}
