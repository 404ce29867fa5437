package org.lonefibre.model.electrode;

import java.util.Map;

/**
 * A needle. Every number is free; {@link Needles} checks those that come from a file.
 *
 * @param name what it is called
 * @param shaftDiameterMm outer diameter, 0.1 to 2 mm
 * @param shaftLengthMm length in the tissue, 2 to 100 mm
 * @param tip where it records
 * @param reference what the core is measured against
 * @param sources where each number comes from and how far it may be trusted, by key
 */
public record Needle(
    String name,
    double shaftDiameterMm,
    double shaftLengthMm,
    Tip tip,
    Reference reference,
    Map<String, String> sources) {

  /** Refuses what cannot be made, naming key, value and what is allowed. */
  public Needle {
    sources = Map.copyOf(sources);
    new NeedleFields(shaftDiameterMm, shaftLengthMm, tip, reference).check();
  }

  /** The kind, as needle files call it. */
  public String kind() {
    if (tip instanceof Tip.SidePort) {
      return "side-port";
    }
    return tip instanceof Tip.Bevel ? "bevel" : "monopolar";
  }

  /** The same needle against another reference; a remote one insulates the shaft. */
  public Needle withReference(Reference newReference) {
    return new Needle(name, shaftDiameterMm, shaftLengthMm, tip, newReference, sources);
  }

  /** The same shaft with another tip. */
  public Needle withTip(Tip newTip) {
    return new Needle(name, shaftDiameterMm, shaftLengthMm, newTip, reference, sources);
  }

  /** Area of the recording metal, in mm2. */
  public double coreAreaMm2() {
    if (tip instanceof Tip.SidePort port) {
      return Math.PI * square(port.coreDiameterUm() / 2000);
    }
    if (tip instanceof Tip.Bevel bevel) {
      return Math.PI
          * square(bevel.coreDiameterUm() / 2000)
          / Math.sin(Math.toRadians(bevel.bevelDeg()));
    }
    Tip.Cone cone = (Tip.Cone) tip;
    double half = Math.toRadians(cone.tipConeDeg() / 2);
    return Math.PI * square(cone.exposedLengthMm()) * Math.tan(half) / Math.cos(half);
  }

  private static double square(double x) {
    return x * x;
  }
}
