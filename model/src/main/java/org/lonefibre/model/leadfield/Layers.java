package org.lonefibre.model.leadfield;

import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import org.jspecify.annotations.Nullable;

/**
 * Potential u and slope q of every triangle: all that is needed for the potential anywhere.
 *
 * <p>Thread rule: immutable.
 */
final class Layers {

  private final double[] u;
  private final double[] q;
  private final double @Nullable [] imaginaryU;
  private final double @Nullable [] imaginaryQ;

  Layers(double[] u, double[] q, double @Nullable [] imaginaryU, double @Nullable [] imaginaryQ) {
    this.u = u;
    this.q = q;
    this.imaginaryU = imaginaryU;
    this.imaginaryQ = imaginaryQ;
  }

  boolean isComplex() {
    return imaginaryU != null;
  }

  int count() {
    return u.length;
  }

  void write(DataOutputStream out) throws IOException {
    out.writeInt(u.length);
    out.writeBoolean(imaginaryU != null);
    write(out, u);
    write(out, q);
    if (imaginaryU != null && imaginaryQ != null) {
      write(out, imaginaryU);
      write(out, imaginaryQ);
    }
  }

  private static void write(DataOutputStream out, double[] values) throws IOException {
    for (double value : values) {
      out.writeDouble(value);
    }
  }

  static Layers read(ByteBuffer in) {
    int count = in.getInt();
    if (count < 0 || count > in.remaining() / 16) {
      throw new IllegalArgumentException("expected fewer triangles, found " + count);
    }
    boolean complex = in.get() != 0;
    double[] u = read(in, count);
    double[] q = read(in, count);
    return complex
        ? new Layers(u, q, read(in, count), read(in, count))
        : new Layers(u, q, null, null);
  }

  private static double[] read(ByteBuffer in, int count) {
    double[] values = new double[count];
    for (int i = 0; i < count; i++) {
      values[i] = in.getDouble();
    }
    return values;
  }

  double potential(int t) {
    return u[t];
  }

  /** Current into the tissue from some triangles, real and imaginary, in A for volts. */
  double[] current(Panels panels, boolean[] from, double meanSPerMm) {
    double[] sum = new double[2];
    double weight = -meanSPerMm * (panels.mirrored() ? 2 : 1);
    for (int t = 0; t < u.length; t++) {
      if (from[t]) {
        sum[0] += weight * panels.area(t) * q[t];
        if (imaginaryQ != null) {
          sum[1] += weight * panels.area(t) * imaginaryQ[t];
        }
      }
    }
    return sum;
  }

  /** Potential at a place of the stretched medium outside the needle, real and imaginary. */
  double[] at(Panels panels, double x, double y, double z) {
    double[] sum = new double[2];
    double[] seen = new double[2];
    for (int t = 0; t < u.length; t++) {
      panels.see(t, x, y, z, seen);
      sum[0] += seen[1] * u[t] - seen[0] * q[t];
      if (imaginaryU != null && imaginaryQ != null) {
        sum[1] += seen[1] * imaginaryU[t] - seen[0] * imaginaryQ[t];
      }
    }
    return sum;
  }

  /** This times a complex factor, plus another times its own. */
  Layers combined(double[] factor, Layers other, double[] otherFactor) {
    int count = u.length;
    double[][] all = new double[4][count];
    for (int t = 0; t < count; t++) {
      for (int kind = 0; kind < 2; kind++) {
        double re = kind == 0 ? u[t] : q[t];
        double im = value(kind == 0 ? imaginaryU : imaginaryQ, t);
        double otherRe = kind == 0 ? other.u[t] : other.q[t];
        double otherIm = value(kind == 0 ? other.imaginaryU : other.imaginaryQ, t);
        all[kind][t] =
            factor[0] * re - factor[1] * im + otherFactor[0] * otherRe - otherFactor[1] * otherIm;
        all[2 + kind][t] =
            factor[0] * im + factor[1] * re + otherFactor[0] * otherIm + otherFactor[1] * otherRe;
      }
    }
    boolean complex = imaginaryU != null || other.imaginaryU != null;
    return new Layers(all[0], all[1], complex ? all[2] : null, complex ? all[3] : null);
  }

  private static double value(double @Nullable [] values, int t) {
    return values == null ? 0 : values[t];
  }
}
