package org.lonefibre.workbench.declaration;

import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The model of the needle as the workbench sees it. The program wires the one there is.
 *
 * <p>Thread rule: safe.
 */
public interface NeedleModel {

  /** A needle that can be asked for. */
  record Known(String key, String name) {}

  /**
   * A plane through the needle with the lead on a grid: lines of one lead are those of one
   * potential when a current flows through the needle (reciprocity).
   *
   * @param name what the plane is
   * @param acrossName what lies along a row
   * @param upName what lies along a column
   * @param acrossMm places along a row, rising
   * @param upMm places along a column, rising
   * @param leadOhm one list a row, real part; null within the needle
   */
  record Section(
      String name,
      String acrossName,
      String upName,
      List<Double> acrossMm,
      List<Double> upMm,
      List<List<@Nullable Double>> leadOhm) {}

  /**
   * A fibre of a sample muscle.
   *
   * @param distanceMm from the core
   * @param amplitudeUv maximum minus minimum, filtered
   * @param shareRatio of the steepest slope of the spike
   */
  record Rung(double distanceMm, double amplitudeUv, double shareRatio) {}

  /**
   * The fibres of one unit at one place of the needle, the nearest first.
   *
   * @param amplitudeUv size of the spike
   * @param highPassHz filter
   * @param rungs the fibres
   * @param restRatio share of all others
   */
  record Place(double amplitudeUv, double highPassHz, List<Rung> rungs, double restRatio) {}

  /** The needles it has geometry of. */
  List<Known> listNeedles();

  /**
   * What a needle hears and why, as a document lonefibre-needle-1 in UTF-8. Solving takes seconds
   * the first time; what is solved is kept.
   *
   * @param key of {@link #listNeedles}
   * @throws IllegalArgumentException if there is no such needle, or its field cannot be solved
   */
  byte[] describe(String key) throws IOException;

  /**
   * The lead across the fibres and along them, each in the plane of the core's normal.
   *
   * @param key of {@link #listNeedles}
   * @throws IllegalArgumentException if there is no such needle, or its field cannot be solved
   */
  List<Section> sections(String key) throws IOException;

  /**
   * Places in a sample muscle, the same units for every needle.
   *
   * @param key of {@link #listNeedles}
   * @throws IllegalArgumentException if there is no such needle, or its field cannot be solved
   */
  List<Place> places(String key) throws IOException;
}
