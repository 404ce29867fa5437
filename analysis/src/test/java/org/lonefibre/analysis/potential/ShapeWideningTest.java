package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.study.MotorUnitResult;

class ShapeWideningTest {

  private static final int LENGTH = 100;
  private static final int ORIGIN = 45;
  private static final double SAMPLE_US = 20;

  private final ShapeWidening widening =
      new ShapeWidening(new PotentialShape(wave(Form.BIPHASIC, 0, 1), ORIGIN));

  @Test
  void whatAFibreLeavesWhoseWidthVariesIsTakenOut() {
    double[][] left = left(0.015);
    double before = energy(left);
    widening.takeOut(left);
    assertThat(energy(left)).isLessThan(0.1 * before);
  }

  /** What a second fibre leaves would ask for a width that varies by far more. */
  @Test
  void whatMovesMoreThanAWidthStays() {
    double[][] left = left(0.05);
    double before = energy(left);
    widening.takeOut(left);
    assertThat(energy(left)).isEqualTo(before);
  }

  /** What twenty discharges leave whose widths vary so much, size being fitted. */
  private static double[][] left(double deviation) {
    Random random = new Random(3);
    return IntStream.range(0, 20)
        .mapToObj(i -> beyondSize(wave(Form.BIPHASIC, 0, 1 + deviation * random.nextGaussian())))
        .toArray(double[][]::new);
  }

  /** Hardly any noise, and widths that vary by 2 %: the late part of a fibre is no second one. */
  @Test
  void aFibreWhoseWidthVariesIsOnePotential() throws IOException {
    DrawnRecording recording = new DrawnRecording(4, 5, 2);
    double[] fired = recording.firing();
    Random random = new Random(9);
    for (double time : fired) {
      double width = 1 + 0.02 * random.nextGaussian();
      double[] once = {time};
      recording.add(t -> Form.SLOW.at(t / width), 900, once, 0, 15);
      recording.add(t -> Form.SLOW.at(t / width), 500, once, 1600, 15);
    }

    List<MotorUnitResult> units = Objects.requireNonNull(recording.analyse().motorUnits());

    assertThat(units).hasSize(1);
    assertThat(units.get(0).potentials()).hasSize(2);
  }

  private static double[] wave(Form form, double lateUs, double width) {
    double[] wave = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      wave[k] = 1000 * form.at(((k - ORIGIN) * SAMPLE_US - lateUs) / width);
    }
    return wave;
  }

  /** What is left of a wave once the shape is taken out in the size that fits. */
  private static double[] beyondSize(double[] wave) {
    double[] shape = wave(Form.BIPHASIC, 0, 1);
    double product = 0;
    for (int k = 0; k < LENGTH; k++) {
      product += wave[k] * shape[k];
    }
    double[] left = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      left[k] = wave[k] - product / energy(shape) * shape[k];
    }
    return left;
  }

  private static double energy(double[][] waves) {
    return Arrays.stream(waves).mapToDouble(ShapeWideningTest::energy).sum();
  }

  private static double energy(double[] wave) {
    double sum = 0;
    for (double value : wave) {
      sum += value * value;
    }
    return sum;
  }
}
