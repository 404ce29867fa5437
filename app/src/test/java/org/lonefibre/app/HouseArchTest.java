package org.lonefibre.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.recording.FindingCode;

/** The arrows of the house, held. */
@Tag("contract")
class HouseArchTest {

  private static final JavaClasses HOUSE =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .withImportOption(location -> !location.contains("-tests.jar"))
          .importPackages("org.lonefibre");

  private static final String ROOT = "org.lonefibre.";

  /** What each module may never see. */
  private static final Map<String, List<String>> NEVER =
      Map.of(
          "signal",
              List.of(
                  "formats",
                  "analysis",
                  "model",
                  "validation",
                  "report",
                  "store",
                  "workbench",
                  "app"),
          "formats",
              List.of("analysis", "model", "validation", "report", "store", "workbench", "app"),
          "analysis",
              List.of("formats", "model", "validation", "report", "store", "workbench", "app"),
          "model",
              List.of("formats", "analysis", "validation", "report", "store", "workbench", "app"),
          "validation", List.of("report", "store", "workbench", "app"),
          "report", List.of("formats", "model", "validation", "store", "workbench", "app"),
          "store", List.of("model", "validation", "report", "workbench", "app"),
          "workbench", List.of("app"));

  /** Packages of a module in reading order; each uses only earlier ones. */
  private static final Map<String, List<String>> ORDER =
      Map.of(
          "signal", List.of("recording", "filter", "interpolation", "robust", "random"),
          "formats", List.of("reader", "edf", "wfdb", "wav", "text", "hdf", "mat", "raw", "writer"),
          "analysis",
              List.of(
                  "conditioning",
                  "discharge",
                  "sweep",
                  "potential",
                  "grading",
                  "interval",
                  "jitter",
                  "chain",
                  "study",
                  "density",
                  "reference",
                  "controls",
                  "settings"),
          "model",
              List.of(
                  "tissue",
                  "electrode",
                  "leadfield",
                  "fibre",
                  "endplate",
                  "motorunit",
                  "simulation"),
          "report", List.of("document", "figure", "csv", "html", "pdf", "fhir", "dicom"),
          "store", List.of("migration", "audit", "limits", "practice", "recordings", "studies"),
          "workbench",
              List.of(
                  "server",
                  "declaration",
                  "work",
                  "study",
                  "site",
                  "importing",
                  "limits",
                  "needle",
                  "practice"));

  @Test
  void noModuleSeesWhatTheDrawingForbids() {
    NEVER.forEach(
        (module, others) -> {
          for (String other : others) {
            noClasses()
                .that()
                .resideInAPackage(ROOT + module + "..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage(ROOT + other + "..")
                .check(HOUSE);
          }
        });
  }

  @Test
  void eachPackageUsesOnlyEarlierOnes() {
    ORDER.forEach(
        (module, packages) -> {
          for (int i = 0; i < packages.size(); i++) {
            for (int later = i + 1; later < packages.size(); later++) {
              noClasses()
                  .that()
                  .resideInAPackage(ROOT + module + "." + packages.get(i) + "..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAPackage(ROOT + module + "." + packages.get(later) + "..")
                  // A package of the drawing may be still to come.
                  .allowEmptyShould(true)
                  .check(HOUSE);
            }
          }
        });
  }

  @Test
  void measuringNeverPrintsNorAsksForTheTime() {
    noClasses()
        .that()
        .resideInAnyPackage(ROOT + "signal..", ROOT + "analysis..", ROOT + "model..")
        .should()
        .accessField(System.class, "out")
        .orShould()
        .callMethod(System.class, "currentTimeMillis")
        .orShould()
        .callMethod(System.class, "nanoTime")
        .orShould()
        .callMethod(java.time.Instant.class, "now")
        .check(HOUSE);
  }

  @Test
  void everyFindingHasAPage() {
    for (FindingCode code : FindingCode.values()) {
      assertThat(Path.of("..", "docs", "findings", code.code() + ".md")).exists();
    }
  }
}
