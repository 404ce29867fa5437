package org.lonefibre.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Small doors and short classes, counted. */
@Tag("contract")
class HouseSizesTest {

  private static final int MEDIAN_LINES = 120;
  private static final int NINE_IN_TEN_LINES = 350;
  private static final int LONGEST_LINES = 600;
  private static final double HIDDEN_RATIO = 0.4;

  @Test
  void classesAreShort() throws IOException {
    List<Integer> lengths = lengths("src/main");
    assertThat(lengths).hasSizeGreaterThan(200);
    assertThat(lengths.get(lengths.size() / 2)).isLessThanOrEqualTo(MEDIAN_LINES);
    assertThat(lengths.get(lengths.size() * 9 / 10)).isLessThanOrEqualTo(NINE_IN_TEN_LINES);
    assertThat(lengths.get(lengths.size() - 1)).isLessThanOrEqualTo(LONGEST_LINES);
  }

  @Test
  void testsAreNotLongerThanAnythingElse() throws IOException {
    List<Integer> lengths = lengths("src/test");
    assertThat(lengths.get(lengths.size() - 1)).isLessThanOrEqualTo(LONGEST_LINES);
  }

  /** Types of the three modules that compute, nested ones included, anonymous ones not. */
  @Test
  void twoTypesInFiveAreHidden() {
    int all = 0;
    int hidden = 0;
    for (JavaClass type :
        new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages(
                "org.lonefibre.signal", "org.lonefibre.analysis", "org.lonefibre.model")) {
      Class<?> loaded = type.reflect();
      if (loaded.isAnonymousClass() || loaded.isSynthetic()) {
        continue;
      }
      all++;
      hidden += Visibility.isVisible(loaded) ? 0 : 1;
    }
    assertThat((double) hidden / all)
        .as("%d of %d types are hidden", hidden, all)
        .isGreaterThanOrEqualTo(HIDDEN_RATIO);
  }

  private static List<Integer> lengths(String part) throws IOException {
    List<Integer> lengths = new ArrayList<>();
    try (Stream<Path> modules = Files.list(Path.of(".."))) {
      for (Path module : modules.map(m -> m.resolve(part)).filter(Files::isDirectory).toList()) {
        try (Stream<Path> files = Files.walk(module)) {
          for (Path file : files.filter(HouseSizesTest::isClass).toList()) {
            lengths.add(Files.readAllLines(file).size());
          }
        }
      }
    }
    lengths.sort(null);
    return lengths;
  }

  private static boolean isClass(Path file) {
    return file.toString().endsWith(".java") && !file.endsWith("package-info.java");
  }
}
