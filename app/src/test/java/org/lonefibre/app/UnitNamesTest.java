package org.lonefibre.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Parameter;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Every public number that is not whole says its unit in its name. */
@Tag("contract")
class UnitNamesTest {

  private static final List<String> UNITS =
      List.of(
          "Hz",
          "Us",
          "Ms",
          "S",
          "Uv",
          "Mv",
          "Um",
          "Mm",
          "SPerM",
          "MPerS",
          "Ohm",
          "OhmM2",
          "FPerM2",
          "Years",
          "Deg",
          "DegC",
          "Db",
          "Ratio",
          "Percent",
          "Probability",
          "Samples");

  /** Mathematics that knows no unit: what comes out is in the unit of what went in. */
  private static final Set<String> UNITLESS_PACKAGES =
      Set.of(
          "org.lonefibre.signal.filter",
          "org.lonefibre.signal.interpolation",
          "org.lonefibre.signal.random",
          "org.lonefibre.signal.robust");

  /** Single names with a reason of their own. */
  private static final Set<String> EXEMPT =
      Set.of(
          // A number beside its unit, which is a word of the same record.
          "Quantity.value",
          // Samples in the unit of the channel, which may have no calibration.
          "Recording.read(destination)",
          "SimulatedRecording.read(destination)",
          "ConditionedSignal.read(destination)",
          "ConditionedSignal.readCausal(destination)",
          "ConditionedSignal.readRaw(destination)",
          "ConditionedSignal.passed",
          "ConditionedSignal.passed(wave)",
          "TrackedPotential.takeOut(window)",
          // Any number on its way to paper.
          "Rounded.shortest(value)",
          "Rounded.decimals(value)",
          // A unit of the file's own below the line.
          "ReadOptions.gainUvPerUnit",
          // What a file holds, in the file's own unit.
          "SampleSource.read(destination)",
          "CheckedRecording.read(destination)",
          "SampleRange.holds(value)",
          "SampleRange.LARGEST",
          "Input.base",
          "Input.scale",
          "Amplitude.step",
          "Amplitude.lowRail",
          "Amplitude.highRail",
          "Amplitude.highest",
          "Amplitude.lowest",
          "WholeRange.low",
          "WholeRange.high",
          "CopyProof.largestDifference",
          // The unit is in the word itself, or in the name of the function.
          "Variables.rateHz(told)",
          "Needle.coreAreaMm2",
          "Contact.capacitive(faradPerM2)",
          "Cable.capacitanceFarad",
          "SampleMuscleSettings.fibresPerMm2",
          // Mean numbers of things that are counted.
          "Row.signals",
          "FibreDensity.potentialsPerSite",
          "Interval.low",
          "Interval.high",
          // A cell of any column.
          "WrittenTable.number",
          "WrittenTable.number(low)",
          "WrittenTable.number(high)",
          // Axes of any figure.
          "Axis.low",
          "Axis.high",
          "Curve(across)",
          "Curve(up)",
          "RecordingDoor.of(gainUvPerUnit)",
          // Ratios whose name is the trade's own.
          "ConditionedSignal.noiseAutocorrelation",
          "PotentialResult.snr",
          "GradingSettings.smallestSnr",
          "PotentialSettings.smallestSnr",
          // In standard deviations of the noise.
          "DischargeSettings.threshold");

  @Test
  void everyPublicNumberSaysItsUnit() {
    List<String> nameless = new ArrayList<>();
    for (Class<?> type : publicTypes()) {
      String name = type.getSimpleName();
      for (Method method : type.getDeclaredMethods()) {
        if (!Modifier.isPublic(method.getModifiers()) || method.isSynthetic()) {
          continue;
        }
        boolean says = saysUnit(method.getName());
        if (isNumber(method.getReturnType()) && !says) {
          nameless.add(name + "." + method.getName());
        }
        // What withX takes is the X itself.
        if (!(method.getName().startsWith("with") && says)) {
          parameters(method, name + "." + method.getName(), nameless);
        }
      }
      for (Constructor<?> constructor : type.getDeclaredConstructors()) {
        if (Modifier.isPublic(constructor.getModifiers()) && !type.isRecord()) {
          parameters(constructor, name, nameless);
        }
      }
      for (Field field : type.getDeclaredFields()) {
        if (Modifier.isPublic(field.getModifiers())
            && isNumber(field.getType())
            && !saysUnit(field.getName())) {
          nameless.add(name + "." + field.getName());
        }
      }
    }
    nameless.removeIf(this::isExempt);
    assertThat(nameless).isEmpty();
  }

  @Test
  void aMissingUnitWouldBeSeen() {
    assertThat(saysUnit("amplitudeUv")).isTrue();
    assertThat(saysUnit("RATE_HZ")).isTrue();
    assertThat(saysUnit("hz")).isTrue();
    assertThat(saysUnit("amplitude")).isFalse();
    assertThat(saysUnit("always")).isFalse();
    assertThat(saysUnit("forms")).isFalse();
    assertThat(isNumber(double[][].class)).isTrue();
    assertThat(isNumber(int.class)).isFalse();
    assertThat(publicTypes()).hasSizeGreaterThan(100);
  }

  private boolean isExempt(String nameless) {
    return EXEMPT.contains(nameless)
        // withX of an exempt X.
        || EXEMPT.stream()
            .filter(one -> one.contains("."))
            .anyMatch(one -> nameless.equalsIgnoreCase(wither(one)));
  }

  private static String wither(String exempt) {
    int dot = exempt.indexOf('.');
    return exempt.substring(0, dot) + ".with" + exempt.substring(dot + 1) + "(value)";
  }

  private static void parameters(Executable executable, String where, List<String> nameless) {
    for (Parameter parameter : executable.getParameters()) {
      if (isNumber(parameter.getType()) && !saysUnit(parameter.getName())) {
        nameless.add(where + "(" + parameter.getName() + ")");
      }
    }
  }

  private static boolean isNumber(Class<?> type) {
    Class<?> element = type;
    while (element.isArray()) {
      element = element.getComponentType();
    }
    return element == double.class
        || element == float.class
        || element == Double.class
        || element == Float.class;
  }

  private static boolean saysUnit(String name) {
    for (String unit : UNITS) {
      String constant = "_" + unit.replaceAll("(?<=[a-z])(?=[A-Z])", "_").toUpperCase();
      if (name.endsWith(unit) || name.equalsIgnoreCase(unit) || name.endsWith(constant)) {
        return true;
      }
    }
    return false;
  }

  private static List<Class<?>> publicTypes() {
    List<Class<?>> types = new ArrayList<>();
    for (JavaClass type :
        new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .withImportOption(location -> !location.contains("-tests.jar"))
            .importPackages("org.lonefibre")) {
      // Classes made from templates are not written by hand.
      boolean made = type.getSimpleName().contains("Generated");
      if (!made && !UNITLESS_PACKAGES.contains(type.getPackageName())) {
        Class<?> loaded = type.reflect();
        if (Visibility.isVisible(loaded)) {
          types.add(loaded);
        }
      }
    }
    return types;
  }
}
