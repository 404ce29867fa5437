package org.lonefibre.report.figure;

/**
 * A line through points, told apart from others by its dash and weight, not by colour.
 *
 * <p>Thread rule: immutable.
 */
public final class Curve {

  /** How it is drawn. */
  public enum Stroke {
    /** Strong and solid. */
    SOLID,
    /** Long dashes. */
    DASHED,
    /** Dots. */
    DOTTED,
    /** Thin: a guide. */
    GUIDE,
    /** Broad and grey: a range that was measured. */
    BAR
  }

  private final String name;
  private final Stroke stroke;
  private final double[] across;
  private final double[] up;

  /**
   * @param name what it is, for the legend; empty for none
   * @param stroke how it is drawn
   * @param across places along the lower axis, rising; copied
   * @param up values, as many; copied
   */
  public Curve(String name, Stroke stroke, double[] across, double[] up) {
    if (across.length != up.length || across.length < 2) {
      throw new IllegalArgumentException(
          "a curve needs as many values as places, 2 or more, found "
              + up.length
              + " and "
              + across.length);
    }
    this.name = name;
    this.stroke = stroke;
    this.across = across.clone();
    this.up = up.clone();
  }

  String name() {
    return name;
  }

  Stroke stroke() {
    return stroke;
  }

  int size() {
    return across.length;
  }

  double across(int index) {
    return across[index];
  }

  double up(int index) {
    return up[index];
  }

  Svg.Dash dash() {
    return switch (stroke) {
      case SOLID, GUIDE, BAR -> Svg.Dash.SOLID;
      case DASHED -> Svg.Dash.LONG;
      case DOTTED -> Svg.Dash.SHORT;
    };
  }

  double width() {
    return stroke == Stroke.GUIDE ? 1 : stroke == Stroke.BAR ? 9 : 3;
  }

  String ink() {
    return switch (stroke) {
      case GUIDE, BAR -> Ink.RULE;
      case SOLID -> Ink.TEXT;
      case DASHED, DOTTED -> Ink.MARK;
    };
  }
}
