package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

class LimitCatalogueTest {

  private static final LimitCatalogue LIMITS = LimitCatalogue.load(LimitSettings.defaults());
  private static final LimitCatalogue CONFIRMED =
      LimitCatalogue.load(
          LimitSettings.defaults().withMemoryRows(LimitSettings.MemoryRows.CONFIRMED));

  /**
   * Three cells a set, or all if it has fewer, copied from the literature cited in the rows by way
   * of the project's reference material; status as there.
   */
  @Tag("published")
  @ParameterizedTest
  @CsvSource({
    // Gilchrist et al. 1992, Muscle Nerve 15:151-161, as republished (second-hand)
    "sf-voluntary-1992, frontalis, single-fibre, VOLUNTARY, 10, 33.6, 49.7",
    "sf-voluntary-1992, orbicularis oculi, single-fibre, VOLUNTARY, 70, 43.0, 55.8",
    "sf-voluntary-1992, extensor digitorum, single-fibre, VOLUNTARY, 50, 35.9, 52.5",
    // Trontelj, Mihelin, Fernandez, Stalberg 1986, JNNP 49:677 (abstract)
    "sf-stimulated-extensor-1986, extensor digitorum, single-fibre, STIMULATED, 40, 25, 40",
    // Trontelj, Khuraibet, Mihelin 1988, JNNP 51:814 (abstract)
    "sf-stimulated-oculi-1988, orbicularis oculi, single-fibre, STIMULATED, 40, 18, 30",
    // Muscle Nerve 2006/2007 (abstract)
    "sf-stimulated-masseter-2006, masseter, single-fibre, STIMULATED, 40, 21, 30",
    // Bir & Kuruoglu 1996 (abstract)
    "sf-stimulated-extensor-1996, extensor digitorum, single-fibre, STIMULATED, 40, 23, 38",
    // Stalberg et al. 2016, Muscle Nerve 53:351-362 (abstract)
    "cn-multicentre-2016, orbicularis oculi, concentric-small, VOLUNTARY, 40, 31, 45",
    "cn-multicentre-2016, frontalis, concentric-small, STIMULATED, 40, 21, 28",
    "cn-multicentre-2016, extensor digitorum, concentric-standard, STIMULATED, 40, 24, 35",
    // Kouyoumdjian & Stalberg 2011, Clin Neurophysiol 122:617 (abstract)
    "cn-oculi-stimulated-2011, orbicularis oculi, concentric-small, STIMULATED, 40, 26, 34",
    // Kouyoumdjian & Stalberg 2013, Muscle Nerve 47:440 (abstract)
    "cn-frontalis-voluntary-2013, frontalis, concentric-small, VOLUNTARY, 40, 26, 36",
    // Kouyoumdjian et al. 2022, Front Neurol 957174 (abstract)
    "cn-tibialis-stimulated-2022, tibialis anterior, concentric-small, STIMULATED, 40, 26, 34",
    // Noro Psikiyatr Ars 2016, doi 10.5152/npa.2015.12390 (abstract)
    "cn-facial-standard-2016, frontalis, concentric-standard, VOLUNTARY, 40, 30, 43.3",
    "cn-facial-standard-2016, orbicularis oculi, concentric-standard, VOLUNTARY, 40, 30, 43.3",
    // Kokubun et al. 2012, Clin Neurophysiol 123:613 (abstract)
    "cn-japan-2012, extensor digitorum, concentric-small, VOLUNTARY, 40, , 56.8",
    "cn-japan-2012, extensor digitorum, concentric-small, STIMULATED, 40, , 58.8",
    "cn-japan-2012, frontalis, concentric-small, STIMULATED, 40, , 51.0",
  })
  void cellsHoldTheCitedValues(
      String set,
      String muscle,
      String needle,
      Activation activation,
      double age,
      @Nullable Double centre,
      double individual) {
    LimitRow row = row(LIMITS.match(study(muscle, age, needle, activation, set)));
    assertThat(row.setId()).isEqualTo(set);
    assertThat(row.centreUs()).isEqualTo(centre);
    assertThat(row.individualUs()).isEqualTo(individual);
    assertThat(row.source()).isNotBlank();
    assertThat(row.status()).isNotEqualTo(LimitRow.Status.FROM_MEMORY);
  }

  @Tag("contract")
  @Test
  void everyRowNamesItsSourceAndEverySetIsKnown() {
    assertThat(LIMITS.listRows()).hasSize(103).allMatch(row -> !row.source().isBlank());
    assertThat(LIMITS.listSets())
        .containsExactly(
            "sf-voluntary-1992",
            "sf-stimulated-extensor-1986",
            "sf-stimulated-oculi-1988",
            "sf-stimulated-masseter-2006",
            "sf-stimulated-extensor-1996",
            "cn-multicentre-2016",
            "cn-oculi-stimulated-2011",
            "cn-frontalis-voluntary-2013",
            "cn-tibialis-stimulated-2022",
            "cn-facial-standard-2016",
            "cn-japan-2012");
    List<String> keys = MuscleNames.load().listKeys();
    assertThat(LIMITS.listRows())
        .allMatch(
            row ->
                keys.contains(row.muscle()) || row.muscle().equals(LimitRow.FRONTALIS_AND_OCULI));
  }

  @Tag("contract")
  @Test
  void thereIsNoLimitAtEight() {
    assertThat(codes(LIMITS.match(voluntary("frontalis", 8, "single-fibre"))))
        .containsExactly(FindingCode.NO_LIMITS);
    assertThat(codes(LIMITS.match(voluntary("frontalis", 8, "concentric-small"))))
        .containsExactly(FindingCode.NO_LIMITS);
  }

  @Tag("contract")
  @Test
  void sixtyNineUsesTheColumnBelowAndShowsTheNext() {
    LimitMatch match = LIMITS.match(voluntary("frontalis", 69, "single-fibre"));
    assertThat(row(match).ageColumnYears()).isEqualTo(60);
    assertThat(row(match).centreUs()).isEqualTo(40.0);
    assertThat(codes(match)).containsExactly(FindingCode.AGE_COLUMNS);
    assertThat(match.findings().get(0).text()).contains("43.8 us").contains("74.1 us");
  }

  @Tag("contract")
  @Test
  void seventyUsesItsOwnColumn() {
    LimitMatch match = LIMITS.match(voluntary("frontalis", 70, "single-fibre"));
    assertThat(row(match).ageColumnYears()).isEqualTo(70);
    assertThat(match.findings()).isEmpty();
  }

  @Tag("contract")
  @Test
  void columnsAreDecadesAndTenYearsPastTheLastThereIsNone() {
    LimitMatch within = LIMITS.match(voluntary("frontalis", 75, "single-fibre"));
    assertThat(row(within).ageColumnYears()).isEqualTo(70);
    assertThat(codes(within)).containsExactly(FindingCode.AGE_COLUMNS);
    assertThat(codes(LIMITS.match(voluntary("frontalis", 80, "single-fibre"))))
        .containsExactly(FindingCode.NO_LIMITS);
  }

  @Tag("contract")
  @Test
  void concentricNeedleAtSixtyFiveIsNeverComparedWithTheSingleFibreTable() {
    LimitMatch match = LIMITS.match(voluntary("extensor digitorum", 65, "concentric-small"));
    assertThat(row(match).setId()).isEqualTo("cn-multicentre-2016");
    assertThat(codes(match)).containsExactly(FindingCode.NEEDLE_SIZE_NOT_STATED);
  }

  @Tag("contract")
  @Test
  void severalSetsAreListedAndNoneIsUsed() {
    LimitMatch match = LIMITS.match(voluntary("ED", 40, "concentric-small"));
    assertThat(codes(match)).containsExactly(FindingCode.SEVERAL_LIMITS);
    assertThat(match.findings().get(0).text())
        .contains("cn-multicentre-2016")
        .contains("cn-japan-2012");
  }

  @Tag("contract")
  @ParameterizedTest
  @ValueSource(strings = {"ED", "EDC", "edc", "extensor digitorum", "Extensor-digitorum communis"})
  void shortNamesMeanTheSameMuscle(String name) {
    LimitMatch match = LIMITS.match(voluntary(name, 50, "single-fibre"));
    assertThat(row(match).muscle()).isEqualTo("extensor digitorum");
    assertThat(row(match).centreUs()).isEqualTo(35.9);
  }

  @Tag("contract")
  @Test
  void unknownMuscleAndOwnNeedleFitNothing() {
    assertThat(codes(LIMITS.match(voluntary("gastrocnemius", 50, "single-fibre"))))
        .containsExactly(FindingCode.NO_LIMITS);
    assertThat(codes(LIMITS.match(voluntary("frontalis", 50, "monopolar"))))
        .containsExactly(FindingCode.NO_LIMITS);
  }

  @Tag("contract")
  @Test
  void rowsFromMemoryAreOffUntilConfirmed() {
    StudyDeclaration deltoid = voluntary("deltoid", 40, "single-fibre");
    assertThat(codes(LIMITS.match(deltoid)))
        .containsExactly(FindingCode.NO_LIMITS, FindingCode.LIMITS_FROM_MEMORY);
    assertThat(row(CONFIRMED.match(deltoid)).individualUs()).isEqualTo(44.6);
  }

  @Tag("contract")
  @Test
  void theBlankCellStaysBlank() {
    LimitRow row = row(CONFIRMED.match(voluntary("SCM", 70, "single-fibre")));
    assertThat(row.individualUs()).isNull();
    assertThat(row.centreUs()).isEqualTo(38.4);
    assertThat(codes(LIMITS.match(voluntary("SCM", 70, "single-fibre"))))
        .contains(FindingCode.LIMITS_FROM_MEMORY);
  }

  @Tag("contract")
  @Test
  void setsStateTheAgesTheyHoldFor() {
    assertThat(
            codes(
                LIMITS.match(
                    study("ED", 60, "concentric-small", Activation.VOLUNTARY, "cn-japan-2012"))))
        .containsExactly(FindingCode.NO_LIMITS);
    assertThat(
            row(LIMITS.match(
                    study("ED", 59.9, "concentric-small", Activation.VOLUNTARY, "cn-japan-2012")))
                .individualUs())
        .isEqualTo(56.8);
  }

  @Tag("contract")
  @Test
  void missingDeclarationsAreSaid() {
    LimitMatch nothing =
        LIMITS.match(
            new StudyDeclaration(
                null,
                null,
                null,
                Activation.VOLUNTARY,
                StudyDeclaration.Origin.ASSUMED,
                null,
                null));
    assertThat(codes(nothing)).containsExactly(FindingCode.MISSING_DECLARATION);
    assertThat(nothing.findings().get(0).text())
        .isEqualTo("Not given: muscle, age, needle, activation; nothing is compared.");

    LimitMatch ageless =
        LIMITS.match(study("ED", null, "concentric-small", Activation.VOLUNTARY, null));
    assertThat(row(ageless).setId()).isEqualTo("cn-multicentre-2016");
    assertThat(codes(ageless))
        .containsExactly(FindingCode.MISSING_DECLARATION, FindingCode.NEEDLE_SIZE_NOT_STATED);
  }

  @Tag("contract")
  @Test
  void anotherFilterIsSaid() {
    LimitMatch match =
        LIMITS.match(
            new StudyDeclaration(
                "frontalis",
                50.0,
                "single-fibre",
                Activation.VOLUNTARY,
                StudyDeclaration.Origin.DECLARED,
                null,
                1000.0));
    assertThat(codes(match)).containsExactly(FindingCode.FILTER_DIFFERS);
  }

  @Tag("contract")
  @Test
  void unknownSetIsTheCallersMistake() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> LIMITS.match(study("ED", 40, "single-fibre", Activation.VOLUNTARY, "x")))
        .withMessageContaining("sf-voluntary-1992")
        .withMessageContaining("found x");
  }

  private static StudyDeclaration voluntary(String muscle, double age, String needle) {
    return study(muscle, age, needle, Activation.VOLUNTARY, null);
  }

  private static StudyDeclaration study(
      String muscle, double age, String needle, Activation activation, @Nullable String set) {
    return study(muscle, Double.valueOf(age), needle, activation, set);
  }

  private static StudyDeclaration study(
      String muscle,
      @Nullable Double age,
      String needle,
      Activation activation,
      @Nullable String set) {
    return new StudyDeclaration(
        muscle, age, needle, activation, StudyDeclaration.Origin.DECLARED, set, null);
  }

  private static LimitRow row(LimitMatch match) {
    assertThat(match).isInstanceOf(LimitMatch.Matched.class);
    return ((LimitMatch.Matched) match).row();
  }

  private static List<FindingCode> codes(LimitMatch match) {
    return match.findings().stream().map(Finding::code).toList();
  }
}
