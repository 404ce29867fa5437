package org.lonefibre.model.leadfield;

import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;

/**
 * The lead field of a needle in muscle: what one ampere anywhere gives between core and reference.
 *
 * <ul>
 *   <li>Places are in needle coordinates, in mm: y along the core's outward normal, x towards the
 *       tip, z across; outside the needle.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class SolvedNeedle {

  private final double finenessRatio;
  private final ScaledMedium medium;
  private final Panels panels;
  private final Layers layers;
  private final double[] resistance;
  private final MeshReport report;

  SolvedNeedle(
      double finenessRatio,
      ScaledMedium medium,
      Panels panels,
      Layers layers,
      double[] resistance,
      MeshReport report) {
    this.finenessRatio = finenessRatio;
    this.medium = medium;
    this.panels = panels;
    this.layers = layers;
    this.resistance = resistance;
    this.report = report;
  }

  /** Magnitude of the impedance between core and reference. */
  public double coreToReferenceOhm() {
    return Complex.magnitude(resistance);
  }

  /** Its real part, which makes the thermal noise. */
  public double coreResistanceOhm() {
    return resistance[0];
  }

  /** Its imaginary part; 0 with real contacts. */
  public double coreReactanceOhm() {
    return resistance[1];
  }

  /** How exact it is. */
  public MeshReport report() {
    return report;
  }

  /** The same field with another report. */
  SolvedNeedle with(MeshReport newReport) {
    return new SolvedNeedle(finenessRatio, medium, panels, layers, resistance, newReport);
  }

  /** Whether the contact gives the lead a phase. */
  public boolean hasPhase() {
    return layers.isComplex();
  }

  /** Lead at a place, real and imaginary part, in ohm. */
  public double[] leadOhm(double xMm, double yMm, double zMm) {
    double[] place = medium.scaled(xMm, yMm, zMm);
    return layers.at(panels, place[0], place[1], place[2]);
  }

  /** Whether a place lies within the needle. */
  boolean holds(double xMm, double yMm, double zMm) {
    double[] place = medium.scaled(xMm, yMm, zMm);
    double[] seen = new double[2];
    double turns = 0;
    for (int t = 0; t < panels.count(); t++) {
      panels.see(t, place[0], place[1], place[2], seen);
      turns += seen[1];
    }
    return turns < -0.5;
  }

  Layers layers() {
    return layers;
  }

  int unknowns() {
    return panels.count();
  }

  void write(DataOutputStream out) throws IOException {
    out.writeDouble(finenessRatio);
    out.writeDouble(resistance[0]);
    out.writeDouble(resistance[1]);
    out.writeInt(report.triangles());
    out.writeDouble(report.rowSumErrorRatio());
    out.writeDouble(report.fluxErrorRatio());
    Double refinement = report.refinementErrorRatio();
    out.writeDouble(refinement == null ? -1 : refinement);
    layers.write(out);
  }

  /** Reads what was written for a key; the surface is laid anew. */
  static SolvedNeedle read(LeadFieldKey key, ByteBuffer in) {
    double fineness = in.getDouble();
    double[] resistance = {in.getDouble(), in.getDouble()};
    int triangles = in.getInt();
    double rowSumError = in.getDouble();
    double fluxError = in.getDouble();
    double refinement = in.getDouble();
    Layers layers = Layers.read(in);
    ScaledMedium medium = new ScaledMedium(key.settings().tissue(), key.settings().angleDeg());
    Panels panels = NeedleSystem.panels(key.needle(), medium, fineness);
    if (panels.count() != layers.count()) {
      throw new IllegalArgumentException(
          "expected " + panels.count() + " triangles, found " + layers.count());
    }
    return new SolvedNeedle(
        fineness,
        medium,
        panels,
        layers,
        resistance,
        new MeshReport(triangles, rowSumError, fluxError, refinement < 0 ? null : refinement));
  }

  /** Direction of the fibres: parts along x and z. */
  double[] fibreDirection() {
    return new double[] {medium.fibreX(), medium.fibreZ()};
  }
}
