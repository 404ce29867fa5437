package org.lonefibre.model.leadfield;

import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;

/**
 * A needle solved on one mesh.
 *
 * <p>Thread rule: immutable.
 */
final class MeshSolution {

  private final double finenessRatio;
  private final ScaledMedium medium;
  private final Panels panels;
  private final Layers layers;
  private final double resistanceOhm;
  private final double reactanceOhm;

  MeshSolution(
      double finenessRatio,
      ScaledMedium medium,
      Panels panels,
      Layers layers,
      double[] impedanceOhm) {
    this.finenessRatio = finenessRatio;
    this.medium = medium;
    this.panels = panels;
    this.layers = layers;
    this.resistanceOhm = impedanceOhm[0];
    this.reactanceOhm = impedanceOhm[1];
  }

  ScaledMedium medium() {
    return medium;
  }

  Panels panels() {
    return panels;
  }

  Layers layers() {
    return layers;
  }

  /** Impedance between core and reference: its real part (0) or its imaginary part (1). */
  double impedanceOhm(int part) {
    return part == 0 ? resistanceOhm : reactanceOhm;
  }

  /** Lead at a place of the needle, real and imaginary part. */
  double[] leadOhm(double xMm, double yMm, double zMm) {
    double[] place = medium.scaled(xMm, yMm, zMm);
    return layers.at(panels, place[0], place[1], place[2]);
  }

  /** Whether a place lies within the needle, and not on its surface, where half a turn is seen. */
  boolean holds(double xMm, double yMm, double zMm) {
    double[] place = medium.scaled(xMm, yMm, zMm);
    return panels.hold(place[0], place[1], place[2]);
  }

  void write(DataOutputStream out) throws IOException {
    out.writeDouble(finenessRatio);
    out.writeDouble(resistanceOhm);
    out.writeDouble(reactanceOhm);
    layers.write(out);
  }

  /** Reads what was written for a key; the surface is laid anew. */
  static MeshSolution read(LeadFieldKey key, ByteBuffer in) {
    double fineness = in.getDouble();
    double[] impedance = {in.getDouble(), in.getDouble()};
    Layers layers = Layers.read(in);
    ScaledMedium medium = new ScaledMedium(key.settings().tissue(), key.settings().angleDeg());
    Panels panels = NeedleSystem.panels(key.needle(), medium, fineness);
    if (panels.count() != layers.count()) {
      throw new IllegalArgumentException(
          "expected " + panels.count() + " triangles, found " + layers.count());
    }
    return new MeshSolution(fineness, medium, panels, layers, impedance);
  }
}
