package org.lonefibre.signal.filter;

import uk.me.berndporr.iirj.Biquad;
import uk.me.berndporr.iirj.Butterworth;
import uk.me.berndporr.iirj.Cascade;

/** Coefficients of Butterworth filters, from the design library. */
final class ButterworthDesign {

  private ButterworthDesign() {}

  /** Rows of b0 b1 b2 a1 a2, one a section. */
  static double[] highPass(int order, double cornerHz, double samplingRateHz) {
    Butterworth design = new Butterworth();
    design.highPass(order, samplingRateHz, cornerHz);
    return rows(design);
  }

  /** Rows of b0 b1 b2 a1 a2, one a section. */
  static double[] lowPass(int order, double cornerHz, double samplingRateHz) {
    Butterworth design = new Butterworth();
    design.lowPass(order, samplingRateHz, cornerHz);
    return rows(design);
  }

  private static double[] rows(Cascade design) {
    double[] rows = new double[SecondOrderSections.WIDTH * design.getNumBiquads()];
    for (int s = 0; s < design.getNumBiquads(); s++) {
      Biquad section = design.getBiquad(s);
      double scale = 1.0 / section.getA0();
      int row = SecondOrderSections.WIDTH * s;
      rows[row] = section.getB0() * scale;
      rows[row + 1] = section.getB1() * scale;
      rows[row + 2] = section.getB2() * scale;
      rows[row + 3] = section.getA1() * scale;
      rows[row + 4] = section.getA2() * scale;
    }
    return rows;
  }
}
