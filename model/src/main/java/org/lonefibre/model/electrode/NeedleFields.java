package org.lonefibre.model.electrode;

import java.util.Locale;

/** Checks the numbers of a needle one by one, then against each other. */
record NeedleFields(double shaftDiameterMm, double shaftLengthMm, Tip tip, Reference reference) {

  void check() {
    range("shaftDiameterMm", shaftDiameterMm, 0.1, 2, "mm");
    range("shaftLengthMm", shaftLengthMm, 2, 100, "mm");
    if (tip instanceof Tip.SidePort port) {
      check(port);
    } else if (tip instanceof Tip.Bevel bevel) {
      check(bevel);
    } else if (tip instanceof Tip.Cone cone) {
      check(cone);
    }
  }

  private void check(Tip.SidePort port) {
    range("coreDiameterUm", port.coreDiameterUm(), 5, 500, "um");
    range("portDiameterUm", port.portDiameterUm(), 20, 2000, "um");
    range("coreFromTipMm", port.coreFromTipMm(), 0.3, 20, "mm");
    double shaftUm = shaftDiameterMm * 1000;
    between(
        "coreDiameterUm", port.coreDiameterUm(), 5, 0.8 * shaftUm, "um, up to 0.8 times the shaft");
    between(
        "portDiameterUm",
        port.portDiameterUm(),
        1.1 * port.coreDiameterUm(),
        0.9 * shaftUm,
        "um, 1.1 times the core to 0.9 times the shaft");
    between(
        "shaftLengthMm",
        shaftLengthMm,
        2.1 * port.portDiameterUm() / 1000 + shaftDiameterMm,
        100,
        "mm, twice the port and more");
    between(
        "coreFromTipMm",
        port.coreFromTipMm(),
        port.portDiameterUm() / 1000 + 0.1 * shaftDiameterMm,
        shaftLengthMm - port.portDiameterUm() / 1000 - 0.5 * shaftDiameterMm,
        "mm, so that the port lies on the shaft");
  }

  private void check(Tip.Bevel bevel) {
    range("coreDiameterUm", bevel.coreDiameterUm(), 10, 1000, "um");
    range("insulationThicknessUm", bevel.insulationThicknessUm(), 2, 500, "um");
    range("bevelDeg", bevel.bevelDeg(), 8, 75, "degrees");
    double shaftUm = shaftDiameterMm * 1000;
    between(
        "coreDiameterUm",
        bevel.coreDiameterUm(),
        10,
        0.9 * shaftUm,
        "um, up to 0.9 times the shaft");
    between(
        "insulationThicknessUm",
        bevel.insulationThicknessUm(),
        2,
        (0.97 * shaftUm - bevel.coreDiameterUm()) / 2,
        "um, so that core and ring fit into the shaft");
    double bevelMm = shaftDiameterMm / Math.tan(Math.toRadians(bevel.bevelDeg()));
    between(
        "shaftLengthMm",
        shaftLengthMm,
        1.5 * bevelMm,
        100,
        "mm, 1.5 times the bevel's length or more");
  }

  private void check(Tip.Cone cone) {
    range("tipConeDeg", cone.tipConeDeg(), 5, 90, "degrees");
    range("exposedLengthMm", cone.exposedLengthMm(), 0.02, 10, "mm");
    double coneMm = shaftDiameterMm / 2 / Math.tan(Math.toRadians(cone.tipConeDeg() / 2));
    between(
        "exposedLengthMm",
        cone.exposedLengthMm(),
        0.02,
        0.97 * coneMm,
        "mm, so that the insulation begins on the cone");
    between("shaftLengthMm", shaftLengthMm, 1.2 * coneMm, 100, "mm, longer than the cone");
    if (reference == Reference.CANNULA) {
      throw new NeedleFault("reference", "cannula", "remote for a monopolar needle");
    }
  }

  private static void range(String key, double value, double low, double high, String unit) {
    between(key, value, low, high, unit);
  }

  private static void between(String key, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new NeedleFault(key, plain(value), plain(low) + " to " + plain(high) + " " + unit);
    }
  }

  static String plain(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e9) {
      return Long.toString((long) value);
    }
    String text = String.format(Locale.ROOT, "%.4g", value);
    return text.contains("e") ? text : text.replaceFirst("\\.?0+$", "");
  }
}
