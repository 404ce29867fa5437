package org.lonefibre.model.leadfield;

import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import org.jspecify.annotations.Nullable;

/**
 * The lead field of a needle in muscle: what one ampere anywhere gives between core and reference.
 *
 * <ul>
 *   <li>Solved on two meshes, it is what both point to: the error falls as the number of triangles
 *       grows, so each value is the finer one's and its change once more (Richardson 1911,
 *       textbook).
 *   <li>Places are in needle coordinates, in mm: y along the core's outward normal, x towards the
 *       tip, z across; outside the needle.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class SolvedNeedle {

  private final MeshSolution fine;
  private final @Nullable MeshSolution coarse;
  private final double overRatio;
  private final MeshReport report;

  /** On one mesh. */
  SolvedNeedle(MeshSolution solution, MeshReport report) {
    this(solution, null, report);
  }

  private SolvedNeedle(MeshSolution fine, @Nullable MeshSolution coarse, MeshReport report) {
    this.fine = fine;
    this.coarse = coarse;
    this.report = report;
    overRatio =
        coarse == null
            ? 0
            : (double) coarse.panels().count() / (fine.panels().count() - coarse.panels().count());
  }

  /** What this and a coarser mesh point to. */
  SolvedNeedle beyond(SolvedNeedle coarser, MeshReport newReport) {
    return new SolvedNeedle(fine, coarser.fine, newReport);
  }

  /** Magnitude of the impedance between core and reference. */
  public double coreToReferenceOhm() {
    return Math.hypot(coreResistanceOhm(), coreReactanceOhm());
  }

  /** Its real part, which makes the thermal noise. */
  public double coreResistanceOhm() {
    return impedanceOhm(0);
  }

  /** Its imaginary part; 0 with real contacts. */
  public double coreReactanceOhm() {
    return impedanceOhm(1);
  }

  private double impedanceOhm(int part) {
    double found = fine.impedanceOhm(part);
    return coarse == null ? found : found + overRatio * (found - coarse.impedanceOhm(part));
  }

  /** How exact it is. */
  public MeshReport report() {
    return report;
  }

  /** Whether the contact gives the lead a phase. */
  public boolean hasPhase() {
    return fine.layers().isComplex();
  }

  /** Lead at a place, real and imaginary part, in ohm. */
  public double[] leadOhm(double xMm, double yMm, double zMm) {
    double[] found = fine.leadOhm(xMm, yMm, zMm);
    if (coarse != null) {
      double[] before = coarse.leadOhm(xMm, yMm, zMm);
      found[0] += overRatio * (found[0] - before[0]);
      found[1] += overRatio * (found[1] - before[1]);
    }
    return found;
  }

  /** Whether a place lies within the needle. */
  public boolean holds(double xMm, double yMm, double zMm) {
    return fine.holds(xMm, yMm, zMm);
  }

  Layers layers() {
    return fine.layers();
  }

  int unknowns() {
    return fine.panels().count();
  }

  void write(DataOutputStream out) throws IOException {
    out.writeInt(report.triangles());
    out.writeDouble(report.rowSumErrorRatio());
    out.writeDouble(report.fluxErrorRatio());
    Double refinement = report.refinementErrorRatio();
    out.writeDouble(refinement == null ? -1 : refinement);
    fine.write(out);
    out.writeBoolean(coarse != null);
    if (coarse != null) {
      coarse.write(out);
    }
  }

  /** Reads what was written for a key; the surfaces are laid anew. */
  static SolvedNeedle read(LeadFieldKey key, ByteBuffer in) {
    int triangles = in.getInt();
    double rowSumError = in.getDouble();
    double fluxError = in.getDouble();
    double refinement = in.getDouble();
    MeshSolution fine = MeshSolution.read(key, in);
    return new SolvedNeedle(
        fine,
        in.get() == 0 ? null : MeshSolution.read(key, in),
        new MeshReport(triangles, rowSumError, fluxError, refinement < 0 ? null : refinement));
  }

  /** Whether one side of the plane of shaft and normal is the other's image. */
  boolean mirrors() {
    return fine.medium().mirrorsZ();
  }

  /** Direction of the fibres: parts along x and z. */
  double[] fibreDirection() {
    return new double[] {fine.medium().fibreX(), fine.medium().fibreZ()};
  }
}
