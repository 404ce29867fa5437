package org.lonefibre.report.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.validation.ResultSeverityEnum;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.fhir.ucum.UcumEssenceService;
import org.fhir.ucum.UcumException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.report.ExaminationSample;
import org.lonefibre.report.document.Closing;

class FhirBundleTest {

  private static final byte[] PDF = "%PDF-1.7 invented".getBytes(StandardCharsets.US_ASCII);
  private static final Closing SIGNED =
      new Closing(
          "Invented study",
          Closing.State.SIGNED,
          "site 3 left out (movement, R. Example)",
          "Seen twice.\nSecond line <b>&</b>.",
          "Jitter above the limit in the invented set.",
          new Closing.Seal(
              1,
              false,
              "R. Example",
              "2026-03-15T08:00:00.123456Z",
              "reviewed and approved",
              "ab".repeat(32),
              "AAAA"));

  private static final Map<FhirVersion, FhirValidator> VALIDATORS =
      new EnumMap<>(FhirVersion.class);

  /** The definitions of a release take some hundred megabytes. */
  @AfterAll
  static void forgetDefinitions() {
    VALIDATORS.clear();
  }

  @Tag("crossCheck")
  @ParameterizedTest
  @EnumSource
  void everyKindOfResultIsAcceptedByTheValidator(FhirVersion version) {
    FhirValidator validator = VALIDATORS.computeIfAbsent(version, FhirValidator::new);
    List<String> errors = new ArrayList<>();
    errors.addAll(errors(validator, version, ExaminationSample.voluntary(), SIGNED));
    errors.addAll(errors(validator, version, ExaminationSample.stimulated(), Closing.NONE));
    errors.addAll(errors(validator, version, ExaminationSample.nothingMeasured(), Closing.NONE));
    errors.addAll(errors(validator, version, ExaminationSample.refusedOnly(), Closing.NONE));
    errors.addAll(errors(validator, version, ExaminationSample.hostile(), SIGNED));
    errors.addAll(validator.messages(LocalCodes.json(), ResultSeverityEnum.ERROR));
    assertThat(errors).isEmpty();
  }

  @Tag("crossCheck")
  @ParameterizedTest
  @EnumSource
  void theValidatorSeesWhatIsWrong(FhirVersion version) {
    FhirValidator validator = VALIDATORS.computeIfAbsent(version, FhirValidator::new);
    String right = bundle(version, ExaminationSample.stimulated(), Closing.NONE);
    String noSuchCode = right.replaceFirst("\"end-plate-jitter\"", "\"no-such-code\"");
    String noSuchStatus = right.replaceFirst("\"preliminary\"", "\"perhaps\"");
    assertThat(noSuchCode).isNotEqualTo(right);
    assertThat(noSuchStatus).isNotEqualTo(right);
    assertThat(validator.messages(noSuchCode, ResultSeverityEnum.ERROR)).isNotEmpty();
    assertThat(validator.messages(noSuchStatus, ResultSeverityEnum.ERROR)).isNotEmpty();
  }

  @ParameterizedTest
  @EnumSource
  void aSignalOutsideTheStatisticsCarriesAReasonAndNoJitter(FhirVersion version)
      throws IOException {
    Examination examination = ExaminationSample.voluntary();
    List<JsonNode> signals = ofCode(version, examination, "pair-jitter");
    List<? extends SignalMeasures> measures =
        examination.studies().get(0).recordings().stream()
            .flatMap(r -> r.signals().stream())
            .toList();
    assertThat(signals).hasSameSizeAs(measures);
    for (int i = 0; i < signals.size(); i++) {
      JsonNode signal = signals.get(i);
      boolean measured = measures.get(i).status() == PairStatus.MEASURED;
      assertThat(signal.has("valueQuantity")).isEqualTo(measured);
      assertThat(signal.has("dataAbsentReason")).isEqualTo(!measured);
      if (!measured) {
        assertThat(signal.toString()).doesNotContain("\"us\"");
      } else {
        assertThat(signal.at("/valueQuantity/value").asDouble())
            .isCloseTo(
                java.util.Objects.requireNonNull(measures.get(i).jitterUs()),
                org.assertj.core.api.Assertions.within(0.05));
        assertThat(signal.at("/referenceRange/0/high/value").asDouble()).isEqualTo(43);
      }
    }
  }

  @ParameterizedTest
  @EnumSource
  void everyReferenceOfTheBundleIsInIt(FhirVersion version) throws IOException {
    JsonNode bundle = read(bundle(version, ExaminationSample.voluntary(), SIGNED));
    Set<String> urls = new HashSet<>();
    bundle.get("entry").forEach(entry -> urls.add(entry.get("fullUrl").asText()));
    assertThat(urls).hasSize(bundle.get("entry").size());
    List<String> references = bundle.findValuesAsText("reference");
    references.addAll(bundle.findValuesAsText("url"));
    assertThat(references).isNotEmpty().isSubsetOf(urls);
  }

  @ParameterizedTest
  @EnumSource
  void theSealAndThePdfAreHandedOverWhole(FhirVersion version) throws IOException {
    JsonNode bundle = read(bundle(version, ExaminationSample.voluntary(), SIGNED));
    assertThat(bundle.findValue("signature").at("/0/data").asText()).isEqualTo("AAAA");
    List<JsonNode> binaries = ofType(bundle, "Binary");
    assertThat(binaries).hasSize(1);
    assertThat(binaries.get(0).get("data").binaryValue()).isEqualTo(PDF);
    JsonNode report = ofType(bundle, "DiagnosticReport").get(0);
    assertThat(report.get("status").asText()).isEqualTo("final");
    assertThat(report.get("conclusion").asText()).contains("above the limit in the invented set");
    assertThat(bundle.toString()).contains("Not a medical device");
  }

  @Test
  void aResultThatWasChangedAfterItWasSignedIsNotFinal() throws IOException {
    Closing.Seal seal = java.util.Objects.requireNonNull(SIGNED.seal());
    Closing amended =
        new Closing(
            "t",
            Closing.State.AMENDED,
            null,
            null,
            null,
            new Closing.Seal(
                1, true, seal.signer(), seal.signedAt(), seal.meaning(), seal.sha256(), "AAAA"));
    String text = bundle(FhirVersion.R4, ExaminationSample.voluntary(), amended);
    assertThat(text).doesNotContain("\"final\"").doesNotContain("\"signature\"");
  }

  @Test
  void theSameResultGivesTheSameBundleAndAnotherOneOtherIdentities() throws IOException {
    String first = bundle(FhirVersion.R4, ExaminationSample.voluntary(), SIGNED);
    assertThat(bundle(FhirVersion.R4, ExaminationSample.voluntary(), SIGNED)).isEqualTo(first);
    String other = bundle(FhirVersion.R4, ExaminationSample.voluntary(), Closing.NONE);
    assertThat(read(other).findValuesAsText("fullUrl"))
        .doesNotContainAnyElementsOf(read(first).findValuesAsText("fullUrl"));
  }

  @Tag("crossCheck")
  @Test
  void everyUnitIsOneOfTheUnifiedCode() throws IOException, UcumException {
    UcumEssenceService units =
        new UcumEssenceService(
            java.util.Objects.requireNonNull(
                UcumEssenceService.class.getResourceAsStream("/ucum-essence.xml")));
    Set<String> codes = new HashSet<>();
    for (Examination examination :
        List.of(ExaminationSample.voluntary(), ExaminationSample.stimulated())) {
      read(bundle(FhirVersion.R4, examination, SIGNED))
          .findParents("unit")
          .forEach(quantity -> codes.add(quantity.get("code").asText()));
    }
    assertThat(codes).contains("us", "uV", "Hz", "Cel").allMatch(c -> units.validate(c) == null);
    assertThat(units.validate("no such unit")).isNotNull();
  }

  @Test
  void theListOfLocalCodesInTheDocumentsIsTheOneInUse() throws IOException {
    assertThat(Path.of("../docs/fhir/CodeSystem-lonefibre.json"))
        .hasContent(LocalCodes.json().strip());
    assertThat(Files.readString(Path.of("../docs/fhir/README.md"))).contains(LocalCode.SYSTEM);
  }

  private static List<String> errors(
      FhirValidator validator, FhirVersion version, Examination examination, Closing closing) {
    return validator.messages(bundle(version, examination, closing), ResultSeverityEnum.ERROR);
  }

  private static String bundle(FhirVersion version, Examination examination, Closing closing) {
    return FhirBundle.of(version, examination, closing, PDF);
  }

  private static JsonNode read(String text) throws IOException {
    return new JsonMapper().readTree(text);
  }

  private static List<JsonNode> ofType(JsonNode bundle, String type) {
    List<JsonNode> found = new ArrayList<>();
    for (JsonNode entry : bundle.get("entry")) {
      if (entry.at("/resource/resourceType").asText().equals(type)) {
        found.add(entry.get("resource"));
      }
    }
    return found;
  }

  private static List<JsonNode> ofCode(FhirVersion version, Examination examination, String code)
      throws IOException {
    return ofType(read(bundle(version, examination, SIGNED)), "Observation").stream()
        .filter(o -> o.at("/code/coding/0/code").asText().equals(code))
        .toList();
  }
}
