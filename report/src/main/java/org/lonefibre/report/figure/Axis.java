package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.List;

/**
 * An axis of a slide figure.
 *
 * @param label what it shows, with its unit
 * @param spacing how values are spaced
 * @param low its lower end; above 0 if logarithmic
 * @param high its upper end
 */
public record Axis(String label, Spacing spacing, double low, double high) {

  /** How values are spaced along an axis. */
  public enum Spacing {
    /** Evenly. */
    LINEAR,
    /** By their logarithm. */
    LOGARITHMIC
  }

  /** Refuses an axis without extent. */
  public Axis {
    if (!(high > low) || (spacing == Spacing.LOGARITHMIC && !(low > 0))) {
      throw new IllegalArgumentException(
          "an axis must rise, a logarithmic one from above 0, found " + low + " to " + high);
    }
  }

  Scale scale(double fromPixel, double toPixel) {
    return new Scale(placed(low), placed(high), fromPixel, toPixel);
  }

  double placed(double value) {
    return spacing == Spacing.LINEAR ? value : Math.log10(value);
  }

  boolean shows(double value) {
    return value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9);
  }

  /** Values with a label. */
  List<Double> ticks() {
    if (spacing == Spacing.LINEAR) {
      return new Scale(low, high, 0, 1).ticks(6);
    }
    boolean few = Math.log10(high / low) > 2.2;
    List<Double> ticks = new ArrayList<>();
    for (int power = (int) Math.floor(Math.log10(low)); power <= Math.log10(high); power++) {
      for (int factor : few ? new int[] {1} : new int[] {1, 2, 5}) {
        double value = factor * Math.pow(10, power);
        if (shows(value)) {
          ticks.add(value);
        }
      }
    }
    return ticks;
  }
}
