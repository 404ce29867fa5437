package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * Looks for the mains in a power spectrum.
 *
 * <p>A line counts as mains if its power is four times or more that of any other line between 20
 * and 95 Hz: the multiples of a steady discharge or stimulation rate have neighbours of their own
 * size. Engineering choice.
 */
final class MainsLine {

  private static final double LOWEST_HZ = 20;
  private static final double HIGHEST_HZ = 95;
  private static final double STANDS_OUT = 4;
  private static final int HALF_LOBE = 2;

  private final double[] power;
  private final int spectra;
  private final double rateHz;
  private final int length;
  private final int group;

  /** One frequency of the mains: peak amplitude in the raw signal, and what the filter leaves. */
  record Line(double frequencyHz, double amplitude, double leftRms) {}

  MainsLine(double[] power, int spectra, double rateHz, int length, int group) {
    this.power = power;
    this.spectra = spectra;
    this.rateHz = rateHz;
    this.length = length;
    this.group = group;
  }

  /**
   * The mains at a frequency, 50 or 60 Hz; amplitude 0 if it does not stand out.
   *
   * @param gain what is left of a sine's amplitude after conditioning, by its frequency
   */
  Line at(double frequencyHz, DoubleUnaryOperator gain) {
    if (spectra == 0 || rateHz < 4 * HIGHEST_HZ) {
      return new Line(frequencyHz, 0, 0);
    }
    double line = lobe(bin(frequencyHz));
    double other = 0;
    for (int k = bin(LOWEST_HZ); k <= bin(HIGHEST_HZ); k++) {
      if (Math.abs(k - bin(frequencyHz)) > 2 * HALF_LOBE + 1) {
        other = Math.max(other, lobe(k));
      }
    }
    if (line < STANDS_OUT * other || line == 0) {
      return new Line(frequencyHz, 0, 0);
    }
    double left = 0;
    for (int h = 1; h * frequencyHz < 0.4 * rateHz; h++) {
      double amplitude = h == 1 ? amplitude(line, frequencyHz) : multiple(h * frequencyHz);
      double passes = amplitude * gain.applyAsDouble(h * frequencyHz);
      left += passes * passes / 2;
    }
    return new Line(frequencyHz, amplitude(line, frequencyHz), Math.sqrt(left));
  }

  /** Multiples of a frequency, the second and higher, that stand out from 20 Hz around them. */
  List<Double> multiplesHz(double frequencyHz, double highestHz) {
    List<Double> found = new ArrayList<>();
    double limitHz = Math.min(highestHz, 0.4 * rateHz);
    for (int h = 2; spectra > 0 && h * frequencyHz <= limitHz; h++) {
      if (multiple(h * frequencyHz) > 0) {
        found.add(h * frequencyHz);
      }
    }
    return found;
  }

  private double multiple(double frequencyHz) {
    int centre = bin(frequencyHz);
    int reach = (int) Math.round(20 * length / rateHz);
    double[] around = new double[2 * reach];
    int count = 0;
    for (int k = centre - reach; k <= centre + reach && k + HALF_LOBE < power.length; k++) {
      if (Math.abs(k - centre) > HALF_LOBE + 1) {
        around[count++] = lobe(k);
      }
    }
    double largest = Arrays.stream(around, 0, count).max().orElse(0);
    double line = lobe(centre);
    return line >= STANDS_OUT * largest ? amplitude(line, frequencyHz) : 0;
  }

  /** Peak amplitude of a sine: its lobe holds A^2/4 N sum(w^2); the means of samples droop. */
  private double amplitude(double lobe, double frequencyHz) {
    double amplitude = 2 * Math.sqrt(lobe / (length * (0.375 * length)));
    double phase = Math.PI * frequencyHz / rateHz;
    double droop = group == 1 ? 1 : Math.sin(phase) / (group * Math.sin(phase / group));
    return amplitude / droop;
  }

  private double lobe(int centre) {
    double sum = 0;
    for (int k = Math.max(1, centre - HALF_LOBE);
        k <= Math.min(power.length - 1, centre + HALF_LOBE);
        k++) {
      sum += power[k];
    }
    return sum;
  }

  private int bin(double frequencyHz) {
    return (int) Math.round(frequencyHz * length / rateHz);
  }
}
