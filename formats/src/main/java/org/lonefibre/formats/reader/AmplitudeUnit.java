package org.lonefibre.formats.reader;

import java.util.OptionalDouble;

/** Units of voltage as files write them. */
public final class AmplitudeUnit {

  private AmplitudeUnit() {}

  /**
   * Microvolts in one of a unit; empty if the text is not plainly a unit of voltage (nothing is
   * guessed from a garbled one).
   */
  public static OptionalDouble microvolts(String unit) {
    return switch (unit.strip()) {
      case "uV", "\u00b5V", "\u03bcV", "microvolt", "microvolts", "uv" -> OptionalDouble.of(1);
      case "mV", "millivolt", "millivolts", "mv" -> OptionalDouble.of(1e3);
      case "V", "volt", "volts", "Volt" -> OptionalDouble.of(1e6);
      case "nV" -> OptionalDouble.of(1e-3);
      default -> OptionalDouble.empty();
    };
  }
}
