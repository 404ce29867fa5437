package org.lonefibre.model.leadfield;

import java.util.HashMap;
import java.util.Map;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.NeedleMesh;
import org.lonefibre.model.electrode.Reference;
import org.lonefibre.model.electrode.Region;
import org.lonefibre.model.electrode.Surface;
import org.lonefibre.model.tissue.Tissue;

/**
 * A needle at an angle in muscle, its matrices laid once and solved for any construction and
 * contact.
 *
 * <ul>
 *   <li>At 0 and 90 degrees the plane of shaft and normal is a mirror: half the triangles do.
 *   <li>Thread rule: one call at a time; works on all processors.
 * </ul>
 */
final class NeedleSystem {

  private static final double MM_PER_M = 1000;
  private static final double CHECK_MM = 0.1;

  private final double finenessRatio;
  private final ScaledMedium medium;
  private final Panels panels;
  private final Matrices matrices;
  private final boolean[] core;
  private final boolean[] shaft;
  private final Map<String, BoundaryMatrix> equations = new HashMap<>();

  /**
   * Lays the matrices.
   *
   * @param needle the needle
   * @param tissue the medium
   * @param angleDeg turn of the needle about its core's normal, -360 to 360; at 0 the fibres cross
   *     the shaft at right angles
   * @param finenessRatio as in {@link NeedleMesh#half}
   */
  NeedleSystem(Needle needle, Tissue tissue, double angleDeg, double finenessRatio) {
    this(
        panels(needle, new ScaledMedium(tissue, angleDeg), finenessRatio),
        new ScaledMedium(tissue, angleDeg),
        finenessRatio);
  }

  /** The same for any surface. */
  NeedleSystem(Panels panels, ScaledMedium medium, double finenessRatio) {
    this.panels = panels;
    this.medium = medium;
    this.finenessRatio = finenessRatio;
    matrices = new Matrices(panels);
    core = where(Region.CORE);
    shaft = where(Region.SHAFT);
  }

  static Panels panels(Needle needle, ScaledMedium medium, double finenessRatio) {
    Surface half = NeedleMesh.half(needle, finenessRatio);
    return new Panels(medium.mirrorsZ() ? half : half.whole(), medium);
  }

  boolean[] where(Region region) {
    boolean[] there = new boolean[panels.count()];
    for (int t = 0; t < there.length; t++) {
      there[t] = panels.region(t) == region;
    }
    return there;
  }

  /** The construction of a needle that is whole. */
  static Construction complete(Needle needle) {
    return needle.reference() == Reference.CANNULA
        ? Construction.METAL_SHAFT
        : Construction.METAL_CORE;
  }

  /** The equation of a construction. */
  BoundarySystem system(Construction construction, Contact coreContact, Contact shaftContact) {
    boolean ofCore = construction.compareTo(Construction.METAL_CORE) >= 0;
    boolean ofShaft = construction == Construction.METAL_SHAFT;
    Contact atCore = ofCore ? coreContact : Contact.IDEAL;
    Contact atShaft = ofShaft ? shaftContact : Contact.IDEAL;
    boolean complex = atCore.reactiveOhmM2() != 0 || atShaft.reactiveOhmM2() != 0;
    boolean ideal = atCore.equals(Contact.IDEAL) && atShaft.equals(Contact.IDEAL);
    return new BoundarySystem(
        equations.computeIfAbsent(
            construction + (complex ? " complex" : ideal ? " ideal" : " real"),
            key ->
                new BoundaryMatrix(
                    matrices,
                    complex ? Vectors.COMPLEX : Vectors.REAL,
                    ofCore ? core : new boolean[panels.count()],
                    ofShaft ? shaft : new boolean[panels.count()],
                    contactLengths())),
        atCore,
        atShaft);
  }

  /** What one ohm m2 of contact is as a length, in mm. */
  private double[] contactLengths() {
    double[] lengths = new double[panels.count()];
    for (int t = 0; t < lengths.length; t++) {
      lengths[t] = medium.meanSPerMm() * MM_PER_M * MM_PER_M * panels.stretchRatio(t);
    }
    return lengths;
  }

  /**
   * Solves.
   *
   * @param construction what is there
   * @param coreContact contact of the core, where it is metal
   * @param shaftContact contact of the shaft, where it is metal
   * @throws LeadFieldException if the equation cannot be solved
   */
  SolvedNeedle solve(Construction construction, Contact coreContact, Contact shaftContact) {
    if (construction == Construction.CORE_ALONE) {
      return alone();
    }
    BoundarySystem system = system(construction, coreContact, shaftContact);
    return switch (construction) {
      case CORE_ALONE, EVEN_CORE -> even(system);
      case METAL_CORE -> remote(system);
      case METAL_SHAFT -> referenced(system);
    };
  }

  private SolvedNeedle alone() {
    double[] slopes = evenSlopes();
    Layers layers = new Layers(new double[slopes.length], slopes, null, null);
    return solved(layers, new double[] {meanOverCore(layers), 0}, 0);
  }

  private SolvedNeedle even(BoundarySystem system) {
    double[] slopes = evenSlopes();
    Layers layers =
        system.layers(system.solve(system.forSlopes(slopes)), new double[slopes.length], slopes);
    return solved(layers, new double[] {meanOverCore(layers), 0}, 0);
  }

  /** Slopes that belong to one ampere leaving the core evenly. */
  private double[] evenSlopes() {
    double area = 0;
    for (int t = 0; t < panels.count(); t++) {
      area += core[t] ? panels.area(t) / panels.stretchRatio(t) : 0;
    }
    area *= panels.mirrored() ? 2 : 1;
    double[] slopes = new double[panels.count()];
    for (int t = 0; t < slopes.length; t++) {
      slopes[t] = core[t] ? -1 / (area * panels.stretchRatio(t) * medium.meanSPerMm()) : 0;
    }
    return slopes;
  }

  private double meanOverCore(Layers layers) {
    double sum = 0;
    double area = 0;
    for (int t = 0; t < panels.count(); t++) {
      if (core[t]) {
        double own = panels.area(t) / panels.stretchRatio(t);
        area += own;
        sum +=
            own
                * layers
                    .at(panels, panels.middle(t, 0), panels.middle(t, 1), panels.middle(t, 2))[0];
      }
    }
    return sum / area;
  }

  private SolvedNeedle remote(BoundarySystem system) {
    Layers unit = unit(system, core);
    double[] potential = Complex.over(current(unit, core));
    return solved(
        unit.combined(potential, unit, new double[2]), potential, fluxError(system, unit));
  }

  private SolvedNeedle referenced(BoundarySystem system) {
    Layers byCore = unit(system, core);
    Layers byShaft = unit(system, shaft);
    double[] coreCore = current(byCore, core);
    double[] shaftCore = current(byCore, shaft);
    double[] coreShaft = current(byShaft, core);
    double[] shaftShaft = current(byShaft, shaft);
    double[] determinant =
        Complex.minus(Complex.times(coreCore, shaftShaft), Complex.times(coreShaft, shaftCore));
    double[] over = Complex.over(determinant);
    double[] coreVolts = Complex.times(Complex.plus(shaftShaft, coreShaft), over);
    double[] shaftVolts =
        Complex.times(Complex.minus(new double[2], Complex.plus(coreCore, shaftCore)), over);
    return solved(
        byCore.combined(coreVolts, byShaft, shaftVolts),
        Complex.minus(coreVolts, shaftVolts),
        fluxError(system, byCore));
  }

  Layers unit(BoundarySystem system, boolean[] driven) {
    double[] volts = new double[panels.count()];
    for (int t = 0; t < volts.length; t++) {
      volts[t] = driven[t] ? 1 : 0;
    }
    return system.layers(
        system.solve(system.forPotential(driven)), volts, new double[volts.length]);
  }

  double[] current(Layers layers, boolean[] from) {
    return layers.current(panels, from, medium.meanSPerMm());
  }

  /**
   * Balance of currents by reciprocity: of one ampere put into the tissue before the core, the
   * grounded core takes as much as its potential of one volt raises that place.
   */
  private double fluxError(BoundarySystem system, Layers byCore) {
    double[] place = medium.scaled(0, CHECK_MM, 0);
    Layers grounded = grounded(system, place);
    double[] taken = current(grounded, core);
    double[] raised = byCore.at(panels, place[0], place[1], place[2]);
    return Complex.magnitude(Complex.plus(taken, raised)) / Complex.magnitude(raised);
  }

  /** What one ampere at a stretched place adds, all metal at 0 V; its own potential left out. */
  Layers grounded(BoundarySystem system, double[] place) {
    int count = panels.count();
    double[] right = new double[system.size()];
    for (int t = 0; t < count; t++) {
      double dx = panels.middle(t, 0) - place[0];
      double dy = panels.middle(t, 1) - place[1];
      double dz = panels.middle(t, 2) - place[2];
      right[t] = 1 / (4 * Math.PI * medium.meanSPerMm() * Math.sqrt(dx * dx + dy * dy + dz * dz));
    }
    return system.layers(system.solve(right), new double[count], new double[count]);
  }

  private SolvedNeedle solved(Layers layers, double[] resistance, double fluxError) {
    return new SolvedNeedle(
        new MeshSolution(finenessRatio, medium, panels, layers, resistance),
        new MeshReport(
            panels.count() * (panels.mirrored() ? 2 : 1), matrices.rowSumError(), fluxError, null));
  }
}
