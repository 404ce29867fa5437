package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.potential.DrawnRecording.Form;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.signal.recording.FindingCode;

/** Four units of three lone fibres each, which often fire into each other. */
@Tag("property")
class ManyUnitsTest {

  private static final int UNITS = 4;
  private static final int FIBRES = 3;

  /** What other units leave in a few sweeps is no second fibre that failed in all others. */
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 5, 6, 9})
  void noFibreIsSaidToFail(long seed) throws IOException {
    DrawnRecording recording = new DrawnRecording(seed, 12, 6);
    Random random = new Random(seed);
    for (int u = 0; u < UNITS; u++) {
      double[] times = recording.firing();
      double lagUs = 0;
      for (int f = 0; f < FIBRES; f++) {
        Form form = random.nextBoolean() ? Form.BIPHASIC : Form.TRIPHASIC;
        double sizeUv = 300 * Math.exp(2 * random.nextDouble());
        recording.add(form, sizeUv, times, lagUs, 8 + 30 * random.nextDouble());
        lagUs += 700 + 900 * random.nextDouble();
      }
    }
    List<MotorUnitResult> units = Objects.requireNonNull(recording.analyse().motorUnits());
    assertThat(units).hasSize(UNITS);
    assertThat(units.stream().flatMap(unit -> unit.potentials().stream()))
        .flatExtracting(potential -> potential.findings())
        .extracting(finding -> finding.code())
        .doesNotContain(FindingCode.COMPONENT_DROP_OUT);
  }
}
